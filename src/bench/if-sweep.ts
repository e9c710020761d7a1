import { stepWithinDb } from '#core/estimate/avc-law.ts';
import type { Estimate } from '#core/numeric/estimate.ts';
import type { SweepPoint } from '#record/sweep.ts';
import { inputForOutput } from './input-search.ts';
import { type Left, type Settled, type SweepGround, SweepHand, SweepLeft, seenThrough } from './sweep-hand.ts';

/** What is swept. */
export interface SweepPlan {
	readonly name: string;
	readonly centreHz: number;
	readonly spanHz: number;
	/** Points of the curve, at least 15. */
	readonly points: number;
	readonly toneHz: number;
	readonly depth: number;
	/** Where the level begins. */
	readonly levelV: number;
	/**
	 * How the level is found: stepped down until AVC is out of it, brought to an output at the top (volts; AVC is taken out of the readings afterwards),
	 * or left as it is, so that the curve stands beside an earlier one.
	 */
	readonly level: 'below AVC' | 'as it is' | { readonly outputV: number };
}

/** A curve as it was swept. */
export interface SweptCurve {
	readonly kind: 'swept';
	readonly points: readonly SweepPoint[];
	/** Level at which it was swept, open-circuit volts rms. */
	readonly levelV: number;
	/** What a step of 6 dB reads at the top of the curve: less means that AVC is at work, more that the detector bends. `null`: it was not looked for, or the signal was lost by it. */
	readonly of6Db: number | null;
	/** Last return to the first place less the first reading there. */
	readonly driftDb: Estimate;
}

/** How a sweep ended. */
export type SweepEnd = SweptCurve | Left;

const stepDb = 6;
/** A step that reads less than this is AVC at work, as on the bench. */
const leastStepDb = stepDb - stepWithinDb;
const levelSteps = 6;
/** Places at which the top is looked for before the level is set. */
const scouts = 7;
/** Share of the points that are spread evenly before the rest go where the curve bends (chosen). */
const evenShare = 0.4;
/** Places that are chosen together and read in order (chosen). */
const placesAtOnce = 10;
/** Points between two returns to the reference. */
const returnEvery = 20;

const loudest = (points: readonly Settled[]): Settled =>
	points.reduce((best, point) => ((point.levelDb ?? -1e9) > (best.levelDb ?? -1e9) ? point : best));

const evenly = (lowHz: number, highHz: number, count: number): number[] =>
	Array.from({ length: count }, (_, k) => lowHz + ((highHz - lowHz) * k) / (count - 1));

/** The middle of the gap that the curve changes most in; gaps finer than a two-hundredth of the span are left alone, and what is too weak to be read. */
function nextHz(points: readonly Settled[], spanHz: number): number | null {
	const sorted = [...points].sort((one, other) => one.frequencyHz - other.frequencyHz);
	const topDb = loudest(points).levelDb ?? 0;
	let best: number | null = null;
	let most = 0;
	for (let k = 0; k + 1 < sorted.length; k++) {
		const low = sorted[k] as Settled;
		const high = sorted[k + 1] as Settled;
		const gapHz = high.frequencyHz - low.frequencyHz;
		if (gapHz < spanHz / 200 || low.levelDb === null || high.levelDb === null) continue;
		// The top of the curve tells the circuits: 30 dB down a decibel counts a tenth (chosen).
		const height = 10 ** ((Math.max(low.levelDb, high.levelDb) - topDb) / 30);
		const weight = (Math.abs(high.levelDb - low.levelDb) + 0.5) * gapHz * height;
		if (weight > most) {
			most = weight;
			best = (low.frequencyHz + high.frequencyHz) / 2;
		}
	}
	return best;
}

/** The next places, at most so many, in order of frequency: neighbours follow each other, so that AVC has little way to go. */
function nextPlaces(points: readonly Settled[], spanHz: number, most: number): readonly number[] {
	const known = [...points];
	const places: number[] = [];
	while (places.length < most) {
		const frequencyHz = nextHz(known, spanHz);
		if (frequencyHz === null) break;
		places.push(frequencyHz);
		known.push(between(known, frequencyHz));
	}
	return places.sort((one, other) => one - other);
}

/** What the straight line between the neighbours would read. */
function between(points: readonly Settled[], frequencyHz: number): Settled {
	const nearest = [...points].sort(
		(one, other) => Math.abs(one.frequencyHz - frequencyHz) - Math.abs(other.frequencyHz - frequencyHz),
	);
	const [one, other] = nearest;
	const levelDb = ((one?.levelDb ?? 0) + (other?.levelDb ?? 0)) / 2;
	return { frequencyHz, levelDb, uncertaintyDb: null };
}

/**
 * Goes down by 6 dB until such a step reads 6 dB or the signal is lost, and then to the level whose step came nearest to 6 dB: where AVC ends the
 * detector's knee may begin. Gives what that step read, `null` where the first one lost the signal.
 */
async function stepDown(hand: SweepHand, peakHz: number): Promise<number | null> {
	let at = await hand.levelAt(peakHz, 'level');
	if (at.levelDb === null) throw new SweepLeft({ kind: 'no signal' });
	const times = 10 ** (stepDb / 20);
	let nearest: { readonly levelV: number; readonly readDb: number | null } = { levelV: hand.levelV, readDb: null };
	for (let count = 0; count < levelSteps; count++) {
		const levelV = hand.levelV;
		await hand.setLevel(levelV / times);
		const weaker = await hand.levelAt(peakHz, 'level');
		if (weaker.levelDb === null) break;
		const readDb = (at.levelDb as number) - weaker.levelDb;
		if (nearest.readDb === null || Math.abs(readDb - stepDb) < Math.abs(nearest.readDb - stepDb))
			nearest = { levelV, readDb };
		if (readDb >= leastStepDb) break;
		at = weaker;
	}
	// Up again by no more at a time than it came down.
	while (hand.levelV < nearest.levelV) await hand.setLevel(Math.min(nearest.levelV, hand.levelV * times));
	return nearest.readDb;
}

async function swept(ground: SweepGround, plan: SweepPlan): Promise<SweepEnd> {
	const hand = new SweepHand(ground, plan.name, plan.levelV);
	const lowHz = plan.centreHz - plan.spanHz / 2;
	const highHz = plan.centreHz + plan.spanHz / 2;
	await hand.begin(plan.centreHz, plan.toneHz, plan.depth);
	const scout: Settled[] = [];
	for (const frequencyHz of evenly(lowHz, highHz, scouts)) scout.push(await hand.levelAt(frequencyHz, 'level'));
	const peakHz = loudest(scout).frequencyHz;
	const of6Db = plan.level === 'below AVC' ? await stepDown(hand, peakHz) : null;
	if (typeof plan.level === 'object') await inputForOutput(hand, peakHz, 20 * Math.log10(plan.level.outputV));

	const first = await hand.levelAt(peakHz, 'reference');
	let last = first;
	const points: Settled[] = [];
	const take = async (frequencyHz: number): Promise<void> => {
		points.push(await hand.levelAt(frequencyHz, 'curve'));
		ground.progress(points.length, plan.points);
		if (points.length % returnEvery === 0) last = await hand.levelAt(peakHz, 'reference');
	};
	for (const frequencyHz of evenly(lowHz, highHz, Math.round(evenShare * plan.points))) await take(frequencyHz);
	while (points.length < plan.points) {
		const places = nextPlaces(points, plan.spanHz, Math.min(placesAtOnce, plan.points - points.length));
		if (places.length === 0) break;
		for (const frequencyHz of places) await take(frequencyHz);
	}
	if (points.length % returnEvery !== 0) last = await hand.levelAt(peakHz, 'reference');
	const seen = points
		.filter(({ levelDb }) => levelDb !== null)
		.sort((one, other) => one.frequencyHz - other.frequencyHz);
	if (first.levelDb === null || last.levelDb === null || seen.length < 5) return { kind: 'no signal' };
	return {
		kind: 'swept',
		points: seen.map((point) => ({ ...point, levelDb: point.levelDb as number })),
		levelV: hand.levelV,
		of6Db,
		driftDb: {
			value: last.levelDb - first.levelDb,
			uncertainty: Math.hypot(first.uncertaintyDb ?? 0, last.uncertaintyDb ?? 0),
		},
	};
}

/**
 * Sweeps an IF curve by itself: finds the top, steps the level down until AVC is out of it, reads evenly and then where the curve changes most,
 * and returns to the top between.
 */
export function sweepIf(ground: SweepGround, plan: SweepPlan): Promise<SweepEnd> {
	return seenThrough(ground, () => swept(ground, plan));
}
