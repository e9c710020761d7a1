import type { Estimate } from '#core/numeric/estimate.ts';
import type { Nudge, StripFit } from './nudge-fit.ts';
import { stripPlaces } from './strip-model.ts';

/** Where the circuit of one adjuster sits after the last sweep, and which way it has to go. */
export interface AdjusterVerdict {
	/** The adjuster's name, or `partner of NAME` for a winding that was not nudged. */
	readonly name: string;
	/** Circuit of the strip, 0 to 3: 0 and 1 share a can, 2 and 3 the other. */
	readonly circuit: number;
	readonly frequencyHz: Estimate;
	/** Where it sat before anything was turned. */
	readonly foundHz: Estimate;
	readonly q: Estimate;
	/** Frequency minus the aimed IF. */
	readonly offHz: number;
	/** What the nudge did to the circuit's frequency; `null` for a partner. */
	readonly nudgeHz: number | null;
	/** Whether other strips that fit nearly as well put this circuit elsewhere. */
	readonly isAmbiguous: boolean;
	/** Whether it is known so poorly that it may well be 2 kc elsewhere. */
	readonly isVague: boolean;
}

/** Three standard uncertainties of a circuit that is vague come to more than this (chosen). */
const vagueHz = 2e3;

/** Circuit and turns of each adjuster that was turned, in the order of their first turns. */
function turned(
	{ circuits }: StripFit,
	nudges: readonly Nudge[],
): { name: string; circuit: number; places: number[] }[] {
	const names = [...new Set(nudges.flatMap(({ name }) => name ?? []))];
	return names.map((name) => {
		const places = nudges.flatMap((nudge, place) => (nudge.name === name ? [place] : []));
		return { name, circuit: circuits[places[0] as number] as number, places };
	});
}

function tuningAfter({ parameters, circuits }: StripFit, circuit: number): number {
	return circuits.reduce(
		(sum, turned, nudge) => (turned === circuit ? sum + (parameters[stripPlaces.size + nudge] as number) : sum),
		parameters[circuit] as number,
	);
}

/** Standard uncertainty of a tuning after the last nudge: the turns share errors with the tuning. */
function tuningUncertainty({ covariance, parameters }: StripFit, circuit: number, places: readonly number[]): number {
	const size = parameters.length;
	const all = [circuit, ...places.map((nudge) => stripPlaces.size + nudge)];
	const variance = all.reduce(
		(sum, row) => sum + all.reduce((part, column) => part + (covariance[row * size + column] as number), 0),
		0,
	);
	return Math.sqrt(Math.max(0, variance));
}

/** The circuit that another strip gives to an adjuster, or to its partner. */
function counterpart(strip: StripFit, place: number, isPartner: boolean): number {
	const circuit = strip.circuits[place] as number;
	return tuningAfter(strip, isPartner ? circuit ^ 1 : circuit);
}

/**
 * Where each nudged adjuster's circuit and each partner sits after the last sweep.
 * Where other strips fit nearly as well, the uncertainty reaches to them.
 */
export function adjusterVerdicts(strip: StripFit, nudges: readonly Nudge[], ifHz: number): readonly AdjusterVerdict[] {
	const all = turned(strip, nudges);
	const own = new Set(all.map(({ circuit }) => circuit));
	const verdict = (
		name: string,
		circuit: number,
		places: readonly number[],
		first: number,
		isPartner: boolean,
	): AdjusterVerdict => {
		const tuning = tuningAfter(strip, circuit);
		const nudged = places.filter((nudge) => nudges[nudge]?.aimedHz === undefined);
		const awayHz = strip.others.map((other) => Math.abs(counterpart(other, first, isPartner) - tuning) * ifHz);
		const isAmbiguous = awayHz.some((hz) => hz > 1000);
		const q = 0.5 / Math.exp(strip.parameters[stripPlaces.halfWidth + circuit] as number);
		const widthPlace = (stripPlaces.halfWidth + circuit) * (strip.parameters.length + 1);
		const uncertainty = Math.hypot(tuningUncertainty(strip, circuit, places) * ifHz, ...(isAmbiguous ? awayHz : []));
		return {
			name,
			circuit,
			frequencyHz: { value: ifHz * (1 + tuning), uncertainty },
			foundHz: {
				value: ifHz * (1 + (strip.parameters[circuit] as number)),
				uncertainty: Math.hypot(tuningUncertainty(strip, circuit, []) * ifHz, ...(isAmbiguous ? awayHz : [])),
			},
			q: { value: q, uncertainty: q * Math.sqrt(strip.covariance[widthPlace] as number) },
			offHz: ifHz * tuning,
			nudgeHz:
				nudged.length === 0
					? null
					: ifHz * nudged.reduce((sum, nudge) => sum + (strip.parameters[stripPlaces.size + nudge] as number), 0),
			isAmbiguous,
			isVague: 3 * uncertainty > vagueHz,
		};
	};
	return [
		...all.map(({ name, circuit, places }) => verdict(name, circuit, places, places[0] as number, false)),
		...all.flatMap(({ name, circuit, places }) =>
			own.has(circuit ^ 1) ? [] : [verdict(`partner of ${name}`, circuit ^ 1, [], places[0] as number, true)],
		),
	];
}

/** The strip's own eleven parameters as they stand after the last nudge. */
export function stripAfter(strip: StripFit): Float64Array {
	const after = strip.parameters.slice(0, stripPlaces.size);
	for (const circuit of [0, 1, 2, 3]) after[circuit] = tuningAfter(strip, circuit);
	return after;
}
