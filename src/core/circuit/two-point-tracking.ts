/** The older two-point forms: right at two frequencies and nowhere asked about between. Kept for old sheets; the error between is large. */

/** A circuit designed for two points. */
export interface TwoPointCircuit {
	readonly inductanceH: number;
	/** Of the padder-only form; `null` for the trimmer-only one. */
	readonly padderF: number | null;
	/** Of the trimmer-only form; `null` for the padder-only one. */
	readonly trimmerF: number | null;
	/** Oscillator less IF less dial. */
	errorHz(signalHz: number): number;
}

/** What the two-point forms are made from: oscillator above. */
export interface TwoPointGiven {
	readonly lowHz: number;
	readonly highHz: number;
	readonly ifHz: number;
	/** Signal circuit at the low point, strays and all. */
	readonly mostF: number;
}

function finished(
	{ lowHz, ifHz, mostF }: TwoPointGiven,
	parts: Pick<TwoPointCircuit, 'padderF' | 'trimmerF'>,
): TwoPointCircuit {
	const wholeF = (signalHz: number): number => {
		const signalF = mostF * (lowHz / signalHz) ** 2;
		return parts.padderF === null
			? signalF + (parts.trimmerF ?? 0)
			: (signalF * parts.padderF) / (signalF + parts.padderF);
	};
	const lowF = wholeF(lowHz);
	return {
		...parts,
		inductanceH: 1 / ((2 * Math.PI * (lowHz + ifHz)) ** 2 * lowF),
		errorHz: (signalHz) => (lowHz + ifHz) * Math.sqrt(lowF / wholeF(signalHz)) - ifHz - signalHz,
	};
}

/** A padder alone, no trimmer, [scilab-1409] ex. 8.5: Cp = Cmax Cmin (r - 1) / (Cmax - r Cmin), r = (fo max / fo min)^2. */
export function twoPointPadder(given: TwoPointGiven): TwoPointCircuit {
	const { lowHz, highHz, ifHz, mostF } = given;
	const r = ((highHz + ifHz) / (lowHz + ifHz)) ** 2;
	const leastF = mostF * (lowHz / highHz) ** 2;
	return finished(given, { padderF: (mostF * leastF * (r - 1)) / (mostF - r * leastF), trimmerF: null });
}

/** A trimmer alone, no padder: (Cmax + Ct) / (Cmin + Ct) = (fo max / fo min)^2. */
export function twoPointTrimmer(given: TwoPointGiven): TwoPointCircuit {
	const { lowHz, highHz, ifHz, mostF } = given;
	const r = ((highHz + ifHz) / (lowHz + ifHz)) ** 2;
	const leastF = mostF * (lowHz / highHz) ** 2;
	return finished(given, { padderF: null, trimmerF: (mostF - r * leastF) / (r - 1) });
}

/** An oscillator section with cut plates: no padder, its plates are shaped so that the oscillator follows everywhere. */
export interface CutPlates {
	readonly inductanceH: number;
	/** The section's capacitance where the signal circuit is tuned to `signalHz`, farads; its plates would have to be cut so. */
	sectionF(signalHz: number): number;
}

/**
 * The ideal cut of an oscillator section, C = 1 / (4 pi^2 L (f + IF)^2) less strays.
 * @param mostF the section fully meshed, at the band's low end
 * @param trimmerF trimmer and strays across it
 */
export function cutPlates(lowHz: number, ifHz: number, mostF: number, trimmerF: number): CutPlates {
	const inductanceH = 1 / ((2 * Math.PI * (lowHz + ifHz)) ** 2 * (mostF + trimmerF));
	return {
		inductanceH,
		sectionF: (signalHz) => 1 / ((2 * Math.PI * (signalHz + ifHz)) ** 2 * inductanceH) - trimmerF,
	};
}
