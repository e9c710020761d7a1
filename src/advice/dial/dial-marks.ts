/** Which marks of a set's own scale to read, and what is known of its dial from the card. */
import { type BandLimits, bestTiePoints, chebyshevPoints, type TiePoints } from '#core/circuit/tracking-curve.ts';
import { type DialGround, hasPadder } from '#core/estimate/dial-model.ts';
import { DialScale, type ScaleMark } from '#core/estimate/dial-scale.ts';
import { siValue } from '#record/quantity.ts';
import type { BandFacts, SetFacts } from '#record/set-facts.ts';

/** How a dial is read. */
export interface DialGearGiven {
	readonly readingM: number;
	readonly travelM: number;
}

/** What is usual when nobody said (chosen): the pointer set by eye, a scale of middle size. */
export const usualGear: DialGearGiven = { readingM: 0.3e-3, travelM: 0.15 };

/** What is known of a band's dial from the card; what the card does not say is taken as usual. Without an IF there is no ground: `null`. */
export function dialGround({ card, ifHz, bands }: SetFacts, band: BandFacts, gear: DialGearGiven): DialGround | null {
	if (ifHz === null) return null;
	const written = card.bands?.find(({ id }) => id === band.id);
	const limits = { lowHz: band.lowHz, highHz: band.highHz };
	const hasCutPlates = card.gang?.cutPlates === 'yes';
	return {
		band: limits,
		ifHz,
		side: band.oscillator,
		pointsHz: pointsOf(band, ifHz, hasCutPlates),
		network: written?.network === 'coil' ? 'coil' : 'gang',
		lowEnd: band.lowEnd === 'unknown' ? 'padder' : band.lowEnd,
		hasCutPlates,
		isPointerShared: bands.length > 1,
		...gear,
		...cardScale(card, band),
	};
}

/** A scale as it was measured. */
export interface MeasuredScale {
	/** Places from the band's low end on. */
	readonly marks: readonly ScaleMark[];
	readonly travelM: number;
}

/**
 * A scale from the places of its marks, measured along it from any one point and from either end; its travel follows.
 * @param marks at least two
 * @throws when the places do not run on with the frequencies
 */
export function measuredScale(band: BandLimits, marks: readonly ScaleMark[]): MeasuredScale {
	const read = [...marks].sort((a, b) => a.dialHz - b.dialHz);
	const way = (read.at(-1)?.atM ?? 0) > (read[0]?.atM ?? 0) ? 1 : -1;
	const turned = read.map(({ dialHz, atM }) => ({ dialHz, atM: way * atM }));
	const scale = new DialScale(band, 0, turned);
	const lowM = scale.placeM(band.lowHz);
	return {
		marks: turned.map(({ dialHz, atM }) => ({ dialHz, atM: atM - lowM })),
		travelM: scale.placeM(band.highHz) - lowM,
	};
}

/** The scale as the card has it measured; `null` when it gives no places. */
export function cardScale({ scales }: SetFacts['card'], { id, lowHz, highHz }: BandFacts): MeasuredScale | null {
	const { marks = [], places = [] } = scales?.find(({ band }) => band === id) ?? {};
	if (places.length < 2 || places.length !== marks.length) return null;
	const read = marks.map((words, k) => ({
		dialHz: siValue('frequency', words),
		atM: siValue('place', places[k] as string),
	}));
	return measuredScale({ lowHz, highHz }, read);
}

/** How fast a band's dial runs at a frequency, hertz for each metre along its scale: by its measured marks, else by its travel as the card has it or as is usual. */
export function dialHzPerM({ card }: SetFacts, band: BandFacts, dialHz: number): number {
	const measured = cardScale(card, band);
	const travel = card.scales?.find((scale) => scale.band === band.id)?.travel;
	const travelM = measured?.travelM ?? (travel === undefined ? usualGear.travelM : siValue('length', travel));
	return new DialScale(band, travelM, measured?.marks).slopeHzPerM(dialHz);
}

/** The best three tie points, hertz; without a padder nothing is tied, and they only say where to sit. */
export function usualTiePoints(
	band: BandLimits,
	ifHz: number,
	{ side, hasCutPlates }: Pick<DialGround, 'side' | 'hasCutPlates'>,
): TiePoints {
	return hasPadder({ side, hasCutPlates }) ? bestTiePoints(band, ifHz, side, 'kilocycles') : chebyshevPoints(band);
}

/** The maker's alignment points with the one between that levels best, or the best three. */
function pointsOf(
	{ lowHz, highHz, lowMarkHz, highMarkHz, oscillator: side }: BandFacts,
	ifHz: number,
	hasCutPlates: boolean,
): TiePoints {
	const best = usualTiePoints({ lowHz, highHz }, ifHz, { side, hasCutPlates });
	const [, middle] = best;
	return lowMarkHz < middle && middle < highMarkHz ? [lowMarkHz, middle, highMarkHz] : best;
}

/** Scale marks of a band as the card has them, ascending; round frequencies when it has none. */
export function scaleMarksHz({ card }: SetFacts, { id, lowHz, highHz }: BandFacts): readonly number[] {
	const written = card.scales?.find(({ band }) => band === id)?.marks ?? [];
	const marks = written
		.map((words) => siValue('frequency', words))
		.filter((mark) => mark >= lowHz && mark <= highHz)
		.sort((a, b) => a - b);
	if (marks.length >= 3) return marks;
	const decade = 10 ** Math.floor(Math.log10(highHz - lowHz));
	const step =
		[0.05, 0.1, 0.2, 0.5].map((share) => share * decade).find((one) => (highHz - lowHz) / one <= 24) ?? decade;
	const first = Math.ceil(lowHz / step) * step;
	return Array.from({ length: Math.floor((highHz - first) / step) + 1 }, (_, k) => Math.round(first + k * step));
}

/**
 * The marks to read, spread evenly along the scale: fewer when the scale has fewer.
 * @param count 7 is best: fewer know less of who is at fault
 */
export function spreadMarksHz(ground: DialGround, marksHz: readonly number[], count: number): readonly number[] {
	if (marksHz.length <= count) return marksHz;
	const scale = new DialScale(ground.band, ground.travelM, ground.marks);
	const first = scale.placeM(marksHz[0] as number);
	const last = scale.placeM(marksHz.at(-1) as number);
	const left = [...marksHz];
	const chosen: number[] = [];
	for (let k = 0; k < count; k++) {
		const wantedM = first + ((last - first) * k) / (count - 1);
		const off = (markHz: number): number => Math.abs(scale.placeM(markHz) - wantedM);
		const nearest = left.reduce((best, mark) => (off(mark) < off(best) ? mark : best));
		left.splice(left.indexOf(nearest), 1);
		chosen.push(nearest);
	}
	return chosen.sort((a, b) => a - b);
}
