/**
 * What a set receives with its pointer on a mark, and how each fault moves it. The scale is taken as true for the set as its maker left it;
 * sections, coils and strays follow from the tracking points, and the size of the gang that is taken for granted cancels from all advice in frequencies.
 */
import type { BandLimits, OscillatorSide, TiePoints } from '#core/circuit/tracking-curve.ts';
import { type PaddedCircuit, paddedFarad, trackingParts } from '#core/circuit/tracking-parts.ts';
import { DialScale, type ScaleMark } from './dial-scale.ts';

/** What is at the low end of the oscillator to be adjusted. */
export type LowEnd = 'padder' | 'slug' | 'none';

/** What is known or taken for granted of a band and its dial. */
export interface DialGround {
	readonly band: BandLimits;
	/** Intermediate frequency as designed. */
	readonly ifHz: number;
	readonly side: OscillatorSide;
	readonly pointsHz: TiePoints;
	/** Where the oscillator's trimmer sits. */
	readonly network: 'gang' | 'coil';
	readonly lowEnd: LowEnd;
	/** The oscillator's section has cut plates and there is no padder. */
	readonly hasCutPlates: boolean;
	/** How well the pointer is set on a mark, along the scale, one standard deviation. */
	readonly readingM: number;
	/** Length of the scale from end to end. */
	readonly travelM: number;
	readonly marks?: readonly ScaleMark[];
	/** Other bands go by the same pointer: it is not slipped for this one. */
	readonly isPointerShared?: boolean;
}

/** What can be turned or slipped. */
export type Lever = 'trimmerF' | 'padderShare' | 'coilShare' | 'pointerM';

/** Whether the oscillator has a padder: one with cut plates, or one below the signal, has none. */
export function hasPadder({ hasCutPlates, side }: Pick<DialGround, 'hasCutPlates' | 'side'>): boolean {
	return !hasCutPlates && side === 'above';
}

/** Levers of a set in bench order: with a padder the high end first; with a slug the low end; with neither, the pointer before the trimmer, unless other bands go by that pointer. */
export function leversOf(ground: DialGround): readonly Lever[] {
	if (ground.lowEnd === 'slug') return ['coilShare', 'trimmerF'];
	if (ground.lowEnd === 'padder' && hasPadder(ground)) return ['trimmerF', 'padderShare'];
	return ground.isPointerShared ? ['trimmerF'] : ['pointerM', 'trimmerF'];
}

/** What may be wrong, each from what the maker left; all nought on a sound set. */
export interface DialState {
	readonly trimmerF: number;
	readonly padderShare: number;
	readonly coilShare: number;
	/** Toward the high end. */
	readonly pointerM: number;
	readonly ifOffHz: number;
	/** Strays at the other place than the trimmer, against what is taken for granted: no fault, but it shapes what a padder does. */
	readonly straysF: number;
	/** Added to the gang over each quarter of its turn, from open to meshed. */
	readonly platesF: readonly [number, number, number, number];
}

/** A sound set. */
export const soundState: DialState = {
	trimmerF: 0,
	padderShare: 0,
	coilShare: 0,
	pointerM: 0,
	ifOffHz: 0,
	straysF: 0,
	platesF: [0, 0, 0, 0],
};

/** A gang's section and its strays, taken for granted (common practice): their size only scales what is said in mmf. */
const usualGang = { gangF: 365e-12, straysF: 30e-12, besideF: 4e-12 } as const;
/** Of the strays with which the gang just reaches a band's high end, so much is taken where the usual ones are more (chosen: something is left of the gang there). */
const reachedShare = 0.95;

/** Strays across the gang: the usual ones, less where a band is wider than a gang with these covers. */
function gangStraysF({ lowHz, highHz }: BandLimits): number {
	const { gangF, straysF } = usualGang;
	return Math.min(straysF, (reachedShare * gangF) / ((highHz / lowHz) ** 2 - 1));
}

interface Oscillator {
	readonly circuit: PaddedCircuit;
	readonly besideF: number;
}

/** Where the gang stands: along the scale, and what its section then has. */
interface Place {
	readonly pointerM: number;
	readonly straysF: number;
	readonly placeM: number;
	readonly sectionF: number;
}

/** The oscillator of a band by its assumed parts, and its dial. */
export class DialModel {
	readonly ground: DialGround;
	readonly scale: DialScale;
	/** The latest oscillator made, by its strays: making one anew is most of the work. */
	#latest: { readonly straysF: number; readonly oscillator: Oscillator };
	readonly #mostStraysF: number;
	/** The latest place of each mark: most faults leave it as it is. */
	readonly #places = new Map<number, Place>();

	/** @throws when no oscillator goes through the tie points */
	constructor(ground: DialGround) {
		this.ground = ground;
		this.scale = new DialScale(ground.band, ground.travelM, ground.marks);
		const oscillator = oscillatorOf(ground, 0);
		if (!oscillator) {
			const points = ground.pointsHz.join(', ');
			throw new Error(`invalid tie points: ${points} Hz, expected ones that an oscillator can go through`);
		}
		this.#latest = { straysF: 0, oscillator };
		this.#mostStraysF = mostStraysF(ground);
	}

	/** The oscillator with other strays than were taken for granted; beyond what can be, with the nearest that can. */
	#oscillator(straysF: number): Oscillator {
		if (this.#latest.straysF === straysF) return this.#latest.oscillator;
		const oscillator = oscillatorOf(this.ground, Math.min(straysF, this.#mostStraysF)) ?? this.#latest.oscillator;
		this.#latest = { straysF, oscillator };
		return oscillator;
	}

	/** The oscillator's section where the sound set is tuned to a mark. */
	#sectionF({ circuit, besideF: otherF }: Oscillator, dialHz: number): number {
		const { inductanceH, padderF, trimmerF } = circuit;
		const offHz = this.ground.side === 'above' ? this.ground.ifHz : -this.ground.ifHz;
		const wholeF = 1 / ((2 * Math.PI * (dialHz + offHz)) ** 2 * inductanceH);
		const [acrossF, besideF] = this.ground.network === 'gang' ? [trimmerF, otherF] : [otherF, trimmerF];
		const seriesF = wholeF - besideF;
		return (padderF === Number.POSITIVE_INFINITY ? seriesF : (seriesF * padderF) / (padderF - seriesF)) - acrossF;
	}

	/** Where the gang stands with the pointer on a mark. */
	#place(oscillator: Oscillator, { pointerM, straysF }: DialState, dialHz: number): Place {
		const known = this.#places.get(dialHz);
		if (known && known.pointerM === pointerM && known.straysF === straysF) return known;
		const placeM = this.scale.placeM(dialHz) - pointerM;
		const place = { pointerM, straysF, placeM, sectionF: this.#sectionF(oscillator, this.scale.dialHz(placeM)) };
		this.#places.set(dialHz, place);
		return place;
	}

	/** Frequency received with the pointer on a mark. */
	heardHz(state: DialState, dialHz: number): number {
		const oscillator = this.#oscillator(state.straysF);
		const place = this.#place(oscillator, state, dialHz);
		const sectionF = place.sectionF + platesF(state, 1 - place.placeM / this.scale.travelM);
		const { inductanceH, padderF, trimmerF } = oscillator.circuit;
		const now = { inductanceH, padderF: padderF * (1 + state.padderShare), trimmerF: trimmerF + state.trimmerF };
		const wholeF = paddedFarad(now, sectionF, this.ground.network, oscillator.besideF);
		const oscillatorHz = 1 / (2 * Math.PI * Math.sqrt(inductanceH * (1 + state.coilShare) * wholeF));
		return this.ground.side === 'above'
			? oscillatorHz - this.ground.ifHz - state.ifOffHz
			: oscillatorHz + this.ground.ifHz + state.ifOffHz;
	}

	/** Received less mark. */
	errorHz(state: DialState, dialHz: number): number {
		return this.heardHz(state, dialHz) - dialHz;
	}

	/** Marks evenly across the scale's frequencies, on which the worst error is judged. */
	judgedMarksHz(): readonly number[] {
		const { lowHz, highHz } = this.ground.band;
		return Array.from({ length: 13 }, (_, k) => lowHz + ((highHz - lowHz) * k) / 12);
	}

	/** The greatest error over the judged marks. */
	worstHz(state: DialState): number {
		return Math.max(...this.judgedMarksHz().map((dialHz) => Math.abs(this.errorHz(state, dialHz))));
	}
}

/** What bent plates add with the gang meshed by a share. */
function platesF({ platesF: quarters }: DialState, meshedShare: number): number {
	return quarters.reduce((sum, addedF, k) => sum + addedF * Math.min(Math.max(4 * meshedShare - k, 0), 1), 0);
}

function oscillatorOf(
	{ pointsHz, band, ifHz, side, network, hasCutPlates }: DialGround,
	addedF: number,
): Oscillator | null {
	const { gangF, besideF } = usualGang;
	const straysF = gangStraysF(band);
	if (!hasPadder({ hasCutPlates, side })) {
		const lowestHz = band.lowHz + (side === 'above' ? ifHz : -ifHz);
		const inductanceH = 1 / ((2 * Math.PI * lowestHz) ** 2 * (gangF + straysF));
		return { circuit: { inductanceH, padderF: Number.POSITIVE_INFINITY, trimmerF: straysF }, besideF: 0 };
	}
	const otherStraysF = Math.max(besideF + addedF, 0);
	const made = trackingParts(pointsHz, band, ifHz, side, { gangF, straysF, network, otherStraysF });
	return made.kind === 'parts' ? { circuit: made.padded, besideF: otherStraysF } : null;
}

/** The most that the strays may be above what is taken for granted and leave the trimmer something to be. */
function mostStraysF(ground: DialGround): number {
	let [low, high]: [number, number] = [0, usualGang.gangF];
	while (high - low > 1e-14) {
		const middle = (low + high) / 2;
		if (oscillatorOf(ground, middle)) low = middle;
		else high = middle;
	}
	return low;
}
