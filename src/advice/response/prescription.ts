import type { AdjusterVerdict } from '#core/estimate/adjuster-verdict.ts';
import { type AimedStrip, madeUp } from '#core/estimate/aim.ts';
import type { ReadingScale } from '#core/estimate/reading-scale.ts';
import { levelFunction } from '#core/estimate/response-model.ts';
import { stripModel, stripPlaces } from '#core/estimate/strip-model.ts';
import { decimalWords } from '#record/quantity-words.ts';

/** One act at the bench: a frequency, one adjuster, one reading. */
export interface Prescription {
	readonly adjuster: string;
	/** Which way, against its own nudge; `null` for a winding whose screw was not nudged. */
	readonly direction: 'same' | 'opposite' | null;
	/** How many nudges' worth; `null` for a winding that was not nudged. */
	readonly timesNudge: number | null;
	readonly generatorHz: number;
	/** What the meter should show before the turn, in its own decibels. */
	readonly referenceDb: number;
	/** What it should show after it. */
	readonly expectedDb: number;
	readonly toleranceDb: number;
	/** How far the reading before the turn may differ before the difference is carried on to the mark: less is chance. */
	readonly carryDb: number;
	/** How much of that difference is carried on: 1 but where AVC flattens one of the two readings more than the other. */
	readonly carryShare: number;
	/** How far the circuit may be off when the reading is within the tolerance. */
	readonly toleranceHz: number;
	/** Whether the reading rises or falls on the way, or rises to a peak and then falls to the mark. */
	readonly approach: 'rising' | 'falling' | 'over the peak';
	/** Side of the IF that the generator stands on. */
	readonly side: 'below' | 'above' | 'on';
	/** How far the circuit is to move. */
	readonly moveHz: number;
	readonly words: string;
}

/** What prescriptions are made from. */
export interface PrescriptionGround {
	/** Eleven parameters of the strip as it stands. */
	readonly parameters: Float64Array;
	readonly gainDb: number;
	/** Tunings that are aimed at, as shares of the IF. */
	readonly aimed: ArrayLike<number>;
	readonly ifHz: number;
	readonly toneHz: number;
	/** Standard uncertainty of a reading of the meter. */
	readonly meterDb: number;
	/** How the meter's readings stand to the strip's own levels. */
	readonly scale: ReadingScale;
	/** A circuit nearer to its aim than its share of uncertainty is left alone; nought before anything was set. */
	readonly patience: number;
}

/** Generator frequencies that are tried, either side of the IF, and how far below the highest level a reading is still good (chosen). */
const farthestHz = 14e3;
const stepHz = 500;
const mostBelowDb = 15;
/** A circuit nearer than this is left alone (chosen: what a careful hand cannot better). */
const nearEnoughHz = 200;

interface Way {
	readonly generatorHz: number;
	readonly referenceDb: number;
	readonly expectedDb: number;
	/** Decibels that the meter moves per hertz of the circuit at the end of the way. */
	readonly slopeDbPerHz: number;
	readonly carryShare: number;
	readonly approach: Prescription['approach'];
	readonly score: number;
}

type LevelAt = (tuning: number, frequencyHz: number) => readonly [level: number, slope: number];

function levelBy(ground: PrescriptionGround, circuit: number): LevelAt {
	const level = levelFunction(stripModel(), ground.toneHz / ground.ifHz);
	const strip = Float64Array.from(ground.parameters);
	const out = new Float64Array(stripPlaces.size + 1);
	return (tuning, frequencyHz) => {
		strip[circuit] = tuning;
		level(strip, frequencyHz / ground.ifHz, out);
		return [ground.gainDb + (out[0] as number), (out[1 + circuit] as number) / ground.ifHz];
	};
}

/** The best place for the generator: where the meter tells most of the circuit at the end, and the reading climbs or falls all the way there; `null` where the meter's scale reaches none. */
function bestWay(ground: PrescriptionGround, circuit: number, from: number, to: number): Way | null {
	const levelAt = levelBy(ground, circuit);
	const ways: (Way & { readonly levelDb: number })[] = [];
	let highestDb = Number.NEGATIVE_INFINITY;
	for (let offsetHz = -farthestHz; offsetHz <= farthestHz; offsetHz += stepHz) {
		const generatorHz = ground.ifHz + offsetHz;
		const path = Array.from({ length: 17 }, (_, index) => levelAt(from + ((to - from) * index) / 16, generatorHz)[0]);
		const levelDb = path[16] as number;
		highestDb = Math.max(highestDb, levelDb);
		const reference = ground.scale.meter(path[0] as number);
		const expected = ground.scale.meter(levelDb);
		if (!reference || !expected) continue;
		const slope = expected.slopeDbPerDb * Math.abs(levelAt(to, generatorHz)[1]);
		const isRising = path.every((level, index) => index === 0 || level >= (path[index - 1] as number));
		const isFalling = path.every((level, index) => index === 0 || level <= (path[index - 1] as number));
		ways.push({
			generatorHz,
			levelDb,
			referenceDb: reference.readingDb,
			expectedDb: expected.readingDb,
			slopeDbPerHz: slope,
			carryShare: expected.slopeDbPerDb / reference.slopeDbPerDb,
			approach: isRising ? 'rising' : isFalling ? 'falling' : 'over the peak',
			// A way over the peak asks more of the hand; it is taken only where it tells half as much again.
			score: slope * (isRising || isFalling ? 1.5 : 1),
		});
	}
	return ways
		.filter(({ levelDb }) => levelDb > highestDb - mostBelowDb)
		.reduce<Way | null>((best, way) => (best === null || way.score > best.score ? way : best), null);
}

const kc = (hertz: number): string => (hertz / 1e3).toFixed(1);

function turnWords(direction: Prescription['direction'], timesNudge: number | null, name: string): string {
	if (direction === null || timesNudge === null) return `Turn the ${name}, whichever way brings the reading there`;
	const way = direction === 'same' ? 'the same way as your nudge' : 'the other way than your nudge';
	const far =
		timesNudge < 0.05
			? 'by a hair'
			: timesNudge < 0.95
				? `about ${timesNudge.toFixed(1)} of it`
				: `about ${timesNudge.toFixed(1)} times as far`;
	return `Turn ${name} ${way}, ${far}`;
}

const approachWords: Readonly<Record<Prescription['approach'], string>> = {
	rising: 'It rises all the way',
	falling: 'It falls all the way',
	'over the peak': 'It rises to a peak first and then falls to the mark',
};

/** A difference is carried on whole unless the meter shows clearly more or less of it at the mark (chosen: a fifth). */
function carryWords(share: number): string {
	return Math.abs(share - 1) < 0.2 ? 'the difference' : `${share.toFixed(1)} of the difference`;
}

function prescription(
	ground: PrescriptionGround,
	{ name, circuit, nudgeHz, frequencyHz }: AdjusterVerdict,
): Prescription | null {
	const from = ground.parameters[circuit] as number;
	const to = ground.aimed[circuit] as number;
	const moveHz = (to - from) * ground.ifHz;
	if (Math.abs(moveHz) < nearEnoughHz) return null;
	const way = bestWay(ground, circuit, from, to);
	if (!way) return null;
	const toleranceDb = Math.max(0.3, 1.5 * ground.meterDb);
	const toleranceHz = toleranceDb / Math.max(way.slopeDbPerHz, 1e-9);
	if (Math.abs(moveHz) < ground.patience * Math.hypot(frequencyHz.uncertainty ?? 0, toleranceHz)) return null;
	const direction = nudgeHz === null ? null : Math.sign(moveHz) === Math.sign(nudgeHz) ? 'same' : 'opposite';
	const timesNudge = nudgeHz === null ? null : Math.abs(moveHz / nudgeHz);
	const carryDb = Math.max(0.3, 2.5 * ground.meterDb);
	const offsetHz = way.generatorHz - ground.ifHz;
	const side = offsetHz < 0 ? 'below' : offsetHz > 0 ? 'above' : 'on';
	const sideWords = side === 'on' ? 'on the IF' : `${kc(Math.abs(offsetHz))} kc ${side} the IF`;
	return {
		adjuster: name,
		direction,
		timesNudge,
		generatorHz: way.generatorHz,
		referenceDb: way.referenceDb,
		expectedDb: way.expectedDb,
		toleranceDb,
		carryDb,
		carryShare: way.carryShare,
		toleranceHz,
		approach: way.approach,
		side,
		moveHz,
		words: [
			`Set the generator to ${kc(way.generatorHz)} kc, ${sideWords}. Tool withdrawn, the meter should read ${decimalWords(way.referenceDb, 1)} dB; if it is more than ${carryDb.toFixed(1)} dB off, carry ${carryWords(way.carryShare)} on.`,
			`${turnWords(direction, timesNudge, name)}, until the meter reads ${decimalWords(way.expectedDb, 1)} dB (${toleranceDb.toFixed(1)} dB either way will do).`,
			`${approachWords[way.approach]}; when you have passed it, go back beyond where you began and come again. Then withdraw the tool and read once more.`,
		].join(' '),
	};
}

/**
 * Acts that bring a strip to its aim, in the order of the verdicts, each from where the ones before it have left the strip.
 * @param verdicts adjusters that can be turned, in the order of the work
 */
function prescriptions(ground: PrescriptionGround, verdicts: readonly AdjusterVerdict[]): readonly Prescription[] {
	const strip = Float64Array.from(ground.parameters);
	const acts: Prescription[] = [];
	for (const verdict of verdicts) {
		const act = prescription({ ...ground, parameters: strip }, verdict);
		if (!act) continue;
		acts.push(act);
		strip[verdict.circuit] = ground.aimed[verdict.circuit] as number;
	}
	return acts;
}

/**
 * Acts that bring a strip to its aim: circuits near it, and those that are not to be turned, stay as they are, and the others make up for them.
 * @param verdicts adjusters that can be turned, in the order of the work
 */
export function dueActs(
	ground: Omit<PrescriptionGround, 'aimed'>,
	aimed: AimedStrip,
	verdicts: readonly AdjusterVerdict[],
): readonly Prescription[] {
	const planned = prescriptions({ ...ground, aimed: aimed.parameters }, verdicts);
	const due = verdicts.filter(({ name }) => planned.some(({ adjuster }) => adjuster === name));
	const circuits = due.map(({ circuit }) => circuit);
	const places = madeUp(ground.parameters, aimed, circuits, ground.ifHz, ground.toneHz);
	return prescriptions({ ...ground, aimed: places, patience: 0 }, due);
}
