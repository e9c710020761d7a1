import { createRandom, type Random } from '../src/core/numeric/random.ts';
import { type BenchSet, tuningAtMark, valuesAt } from '../src/core/receiver/bench-set.ts';
import { tm517 } from '../src/core/receiver/designs/tm-517.ts';
import { SteadyState } from '../src/core/receiver/operating-point.ts';
import { standardTone } from '../src/core/receiver/signal.ts';
import { tamperedSet } from '../src/core/receiver/truth.ts';

/** Scatter of a frame's level at 20 dB of tone over noise in 4 kc: 8.686 x the bound of a tone's amplitude over 0.1 s, [rife-boorstyn-1974]. */
export const scatterAt20Db = 0.031;

/** What disturbs a simulated turn, decibels. */
export interface TurnTrouble {
	readonly scatterDb: number;
	/** Level step while the tool touches the screw. */
	readonly handDb: number;
	/** To and fro while the tool turns, one way. */
	readonly flutterDb: number;
	/** Slow wander of the whole level, one standard deviation, over five seconds. */
	readonly wanderDb: number;
}

export const noTrouble: TurnTrouble = { scatterDb: scatterAt20Db, handDb: 0, flutterDb: 0, wanderDb: 0 };

/** One frame of a tenth of a second: what the meter reads, and the truth beside it. */
export interface TurnFrame {
	readonly levelDb: number;
	/** Half widths from the peak, positive beyond it. */
	readonly x: number;
	/** True fall below the peak. */
	readonly fallDb: number;
}

const ifAdjusters = ['if1-primary', 'if1-secondary', 'if2-primary', 'if2-secondary'] as const;
const places = 240;
/** Weak enough that AVC rests. */
const weakV = 30e-6;

/** Tone level of a tampered set against one adjuster, from the simulated circuits; places even over its travel. */
function tabulated(set: BenchSet, adjuster: string): number[] {
	const travel = set.design.adjusters[adjuster]?.travelTurns as number;
	const tuning = tuningAtMark(set, set.design.band.lowHz * 1.05);
	const signal = { frequencyHz: set.design.ifHz, ...standardTone, into: 'converter grid', levelV: weakV } as const;
	return Array.from({ length: places + 1 }, (_, index) => {
		const turns = { ...set.turns, [adjuster]: (index * travel) / places };
		return 20 * Math.log10(new SteadyState(valuesAt({ ...set, turns }, tuning)).operatingPoint(signal).toneV);
	});
}

/** Between the places of a table: the cubic through values and slopes of the neighbours. */
function cubic(table: readonly number[], place: number): number {
	const low = Math.floor(place);
	const t = place - low;
	const [a, b, c, d] = [-1, 0, 1, 2].map((step) => table[low + step]) as [number, number, number, number];
	return b + 0.5 * t * (c - a + t * (2 * a - 5 * b + 4 * c - d + t * (3 * (b - c) + d - a)));
}

/** A level against half widths from its peak, decibels below the peak; a peak that lies within the travel by two half widths on either side. */
export type PeakCurve = (x: number) => number;

/** The curve of one IF adjuster of a simulated set with its other adjusters tampered with. */
export function receiverCurve(seed: number): PeakCurve {
	for (let attempt = 0; ; attempt++) {
		const set = tamperedSet(tm517, seed + 100_000 * attempt);
		const levels = tabulated(set, ifAdjusters[(seed + attempt) % ifAdjusters.length] as string);
		const peakDb = Math.max(...levels);
		const peak = levels.indexOf(peakDb);
		const below = levels.findLastIndex((level, at) => at < peak && level < peakDb - 3.01);
		const above = levels.findIndex((level, at) => at > peak && level < peakDb - 3.01);
		if (below < 0 || above < 0) continue;
		const half = (above - below) / 2;
		if (peak - 2 * half < 0 || peak + 2 * half > places) continue;
		const level = (place: number): number => cubic(levels, Math.max(1, Math.min(places - 2.001, place)));
		let top = peak - 1;
		for (let place = top; place <= peak + 1; place += 0.01) if (level(place) > level(top)) top = place;
		return (x) => level(top) - level(top + x * half);
	}
}

/** Strokes and pauses of a hand: half widths moved in each frame, and whether the tool is on. */
function* hand({ uniform }: Random): Generator<{ stepHalfWidths: number; isOn: boolean }> {
	for (;;) {
		const pace = 0.01 + 0.025 * uniform();
		const frames = Math.round((0.15 + 0.4 * uniform()) / pace);
		for (let frame = 0; frame < frames; frame++) {
			// A stroke begins and ends gently.
			yield { stepHalfWidths: pace * 1.5 * Math.sin((Math.PI * (frame + 0.5)) / frames), isOn: true };
		}
		const isOn = uniform() < 0.5;
		const pause = 3 + Math.floor(10 * uniform());
		for (let frame = 0; frame < pause; frame++) yield { stepHalfWidths: 0, isOn };
	}
}

/** Slow wander of a level, decibels, frame by frame: a first-order process of five seconds. */
function wanderer(sigmaDb: number, { gaussian }: Random): () => number {
	const keep = Math.exp(-1 / 50);
	let wander = sigmaDb * gaussian();
	return () => {
		wander = keep * wander + Math.sqrt(1 - keep * keep) * sigmaDb * gaussian();
		return wander;
	};
}

/** A turn through the peak from 1.5 half widths before it to 1.5 beyond, by strokes and pauses, ten frames a second. */
export function simulatedTurn(seed: number, trouble: TurnTrouble, curve: PeakCurve): TurnFrame[] {
	const random = createRandom(seed);
	const direction = random.uniform() < 0.5 ? 1 : -1;
	const handDb = random.uniform() < 0.5 ? trouble.handDb : -trouble.handDb;
	const wander = wanderer(trouble.wanderDb, random);
	const frames: TurnFrame[] = [];
	let flutter = 1;
	let x = -1.5;
	for (const { stepHalfWidths, isOn } of hand(random)) {
		x += stepHalfWidths;
		if (x > 1.5) break;
		if (random.uniform() < 0.3) flutter = 2 * random.uniform() - 1;
		const fallDb = curve(direction * x);
		const disturbed = isOn ? handDb + trouble.flutterDb * flutter : 0;
		frames.push({ x, fallDb, levelDb: -fallDb + wander() + disturbed + trouble.scatterDb * random.gaussian() });
	}
	return frames;
}

/** Five seconds of hands off and five with the tool resting, as the check before a turn reads them. */
export function simulatedCheck(seed: number, trouble: TurnTrouble): { offDb: number[]; onDb: number[] } {
	const random = createRandom(seed);
	const wander = wanderer(trouble.wanderDb, random);
	let flutter = 1;
	const read = (isOn: boolean): number => {
		if (random.uniform() < 0.3) flutter = 2 * random.uniform() - 1;
		const disturbed = isOn ? trouble.handDb + trouble.flutterDb * flutter : 0;
		return disturbed + wander() + trouble.scatterDb * random.gaussian();
	};
	return {
		offDb: Array.from({ length: 50 }, () => read(false)),
		onDb: Array.from({ length: 50 }, () => read(true)),
	};
}
