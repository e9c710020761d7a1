import type { BandLimits } from '#core/circuit/tracking-curve.ts';

/** A mark of the scale whose place was measured with a ruler. */
export interface ScaleMark {
	readonly dialHz: number;
	/** From the low end of the scale, along it. */
	readonly atM: number;
}

/**
 * Between marks, places go with D^-k. k = 1 is straight-line wavelength, seen as the law of most old broadcast gangs [varcos]; 2 is straight-line capacitance.
 * Chosen between the two, nearer the first.
 */
const exponent = 1.2;

const warped = (dialHz: number): number => -(dialHz ** -exponent);

/** A dial's scale: where each frequency stands along it. */
export class DialScale {
	readonly #marks: readonly { readonly warpedHz: number; readonly atM: number }[];
	readonly travelM: number;

	/** @param marks at least two with different places, or none: the band's ends are then `travelM` apart */
	constructor({ lowHz, highHz }: BandLimits, travelM: number, marks: readonly ScaleMark[] = []) {
		const measured = [...marks].sort((a, b) => a.dialHz - b.dialHz);
		const known =
			measured.length >= 2
				? measured
				: [
						{ dialHz: lowHz, atM: 0 },
						{ dialHz: highHz, atM: travelM },
					];
		if (
			known.some(({ dialHz, atM }, k) => k > 0 && !(dialHz > at(known, k - 1).dialHz && atM > at(known, k - 1).atM))
		) {
			throw new Error('invalid marks: expected places that grow with the frequency');
		}
		this.#marks = known.map(({ dialHz, atM }) => ({ warpedHz: warped(dialHz), atM }));
		this.travelM = travelM;
	}

	#stretch(isBefore: (mark: { readonly warpedHz: number; readonly atM: number }) => boolean) {
		const next = this.#marks.findIndex((mark) => isBefore(mark));
		const high = next < 0 ? this.#marks.length - 1 : Math.max(next, 1);
		return [at(this.#marks, high - 1), at(this.#marks, high)] as const;
	}

	/** Place of a frequency along the scale, metres. */
	placeM(dialHz: number): number {
		const here = warped(dialHz);
		const [low, high] = this.#stretch(({ warpedHz }) => warpedHz >= here);
		return low.atM + ((high.atM - low.atM) * (here - low.warpedHz)) / (high.warpedHz - low.warpedHz);
	}

	/** The frequency that stands at a place. */
	dialHz(placeM: number): number {
		const [low, high] = this.#stretch(({ atM }) => atM >= placeM);
		const here = low.warpedHz + ((high.warpedHz - low.warpedHz) * (placeM - low.atM)) / (high.atM - low.atM);
		return (-here) ** (-1 / exponent);
	}

	/** How fast the dial runs at a frequency, hertz for each metre. */
	slopeHzPerM(dialHz: number): number {
		const step = 1e-5;
		return (this.dialHz(this.placeM(dialHz) + step) - this.dialHz(this.placeM(dialHz) - step)) / (2 * step);
	}
}

function at<Item>(items: readonly Item[], place: number): Item {
	return items[place] as Item;
}
