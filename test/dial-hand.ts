/** A simulated hand at the dial of simulated sets: guided, and by the usual ritual. */
import { type DialAct, leverOf } from '#advice/dial/dial-acts.ts';
import { dialAnswer } from '#advice/dial/dial-answer.ts';
import { type DialGround, type Lever, leversOf } from '#core/estimate/dial-model.ts';
import { broughtIn, type DialPoint, latestTurned } from '#core/estimate/dial-solve.ts';
import { createRandom, type Random } from '#core/numeric/random.ts';
import { tm517 } from '#core/receiver/designs/tm-517.ts';
import { markTuning } from '#core/receiver/factory.ts';
import { type Disturbance, DisturbedSet, usualDisturbance } from './disturbed-set.ts';

/** Sets that a figure is measured on: how many, and the seed of the first. */
export const usualSets = { firstSeed: 7001, count: 200 };
export const band = { lowHz: 540e3, highHz: 1600e3 };
/** The set of the demo with a scale of 150 mm from 540 to 1,600 kc. */
export const design = {
	...tm517,
	band,
	scaleTravelM: 0.15 / (markTuning(tm517, band.highHz) - markTuning(tm517, band.lowHz)),
};
const probe = new DisturbedSet(design, {
	trimmerF: 0,
	padderShare: 0,
	coilShare: 0,
	pointerM: 0,
	ifOffHz: 0,
	platesF: [0, 0, 0, 0],
});
/** The scale measured with a ruler, to half a millimetre. */
const ruler = [540, 600, 700, 800, 1000, 1200, 1400, 1600].map((kc) => ({
	dialHz: kc * 1e3,
	atM: Math.round(2e3 * probe.travelM(band.lowHz, kc * 1e3)) / 2e3,
}));
export const marksHz = [560, 640, 760, 920, 1110, 1330, 1580].map((kc) => kc * 1e3);
/** Generator and peak together, one standard deviation. */
export const peakHz = 200;

/** What is known of such a set's dial. */
export function ground(readingM: number, change: Partial<DialGround>): DialGround {
	return {
		band,
		ifHz: design.ifHz,
		side: 'above',
		pointsHz: [600e3, 1000e3, 1400e3],
		network: 'gang',
		lowEnd: 'padder',
		hasCutPlates: false,
		readingM,
		travelM: 0.15,
		marks: ruler,
		...change,
	};
}

interface Hand {
	miss(): number;
	peak(): number;
}
const handOf = (random: Random, readingM: number): Hand => ({
	miss: () => readingM * random.gaussian(),
	peak: () => peakHz * random.gaussian(),
});

/** What comes in at a mark, the pointer set `missM` beside it. */
function reading(set: DisturbedSet, hand: Hand, dialHz: number, missM: number): Omit<DialPoint, 'pass'> {
	return { dialHz, heardHz: set.heardHz(dialHz, missM) + hand.peak(), heardUncertaintyHz: peakHz };
}

/** Seven marks of a set as it was found. */
export function marksRead(set: DisturbedSet, hand: Hand): readonly DialPoint[] {
	return marksHz.map((dialHz) => ({ ...reading(set, hand, dialHz, hand.miss()), pass: 0 }));
}

/** Reads the marks and does what is said, act by act as the page asks, pass by pass. */
export function guided(
	set: DisturbedSet,
	hand: Hand,
	given: DialGround,
	passes: number,
	passDone: (pass: number) => void,
): void {
	const levers = leversOf(given);
	const points: DialPoint[] = [...marksRead(set, hand)];
	const keep = (dialHz: number, missM: number, pass: number): DialPoint => {
		const point = { ...reading(set, hand, dialHz, missM), pass, turned: latestTurned(levers, points) };
		points.push(point);
		return point;
	};
	for (let pass = 0; pass < passes; pass++) {
		if (pass > 0) for (const dialHz of marksHz) keep(dialHz, hand.miss(), pass);
		let left: readonly Lever[] | null = null;
		while (left === null || left.length > 0) {
			const begun: DialAct | undefined = dialAnswer(given, points, marksHz, left).plan.acts[0];
			if (!begun || begun.adjuster === 'pointer') break;
			// What comes in at the act's mark is read once more, and the dial is not moved again.
			const missM = hand.miss();
			const now = keep(begun.sitAtDialHz, missM, pass);
			const acts: readonly DialAct[] = dialAnswer(given, points, marksHz, left).plan.acts;
			const act: DialAct = acts.find(({ adjuster }) => adjuster === begun.adjuster) ?? begun;
			const lever = leverOf[act.adjuster] as 'trimmerF' | 'padderShare' | 'coilShare';
			const wantedHz = now.heardHz + act.moveByHz;
			set.bringIn(lever, act.sitAtDialHz, wantedHz + hand.peak(), missM);
			points.push(broughtIn(now, levers, lever, wantedHz));
			const isLast = acts.every(({ adjuster }) => adjuster === act.adjuster);
			left = isLast ? [] : (left ?? levers).filter((one) => one !== lever);
		}
		passDone(pass);
	}
}

/** The usual ritual: trimmer at 1,400 and padder at 600 by turns, ended at the high end. */
export function usual(set: DisturbedSet, hand: Hand, rounds: number): void {
	for (let round = 0; round < rounds; round++) {
		set.bringIn('trimmerF', 1400e3, 1400e3 + hand.peak(), hand.miss());
		set.bringIn('padderShare', 600e3, 600e3 + hand.peak(), hand.miss());
	}
	set.bringIn('trimmerF', 1400e3, 1400e3 + hand.peak(), hand.miss());
}

export const quantile = (values: readonly number[], share: number): number =>
	[...values].sort((a, b) => a - b)[Math.round(share * (values.length - 1))] ?? Number.NaN;

/** Worst error over all sets, kilocycles. */
export interface WorstErrors {
	readonly median: number;
	readonly ninety: number;
}

/** The same sets and the same hand's misses for each kind of work; `work` calls `look` whenever a set is to be judged. */
export function worstOf(
	readingM: number,
	work: (set: DisturbedSet, hand: Hand, look: () => void, off: Disturbance) => void,
	{ firstSeed, count: many } = usualSets,
): readonly WorstErrors[] {
	const looks: number[][] = [];
	for (let k = 0; k < many; k++) {
		const random = createRandom(firstSeed + k);
		const off = usualDisturbance(random);
		const set = new DisturbedSet(design, off);
		let count = 0;
		const look = (): void => {
			looks[count] = [...(looks[count] ?? []), set.worstHz() / 1e3];
			count++;
		};
		work(set, handOf(random, readingM), look, off);
	}
	return looks.map((worst) => ({ median: quantile(worst, 0.5), ninety: quantile(worst, 0.9) }));
}
