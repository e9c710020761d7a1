import { nextFrequencyHz } from '#advice/response/next-frequency.ts';
import type { Prescription } from '#advice/response/prescription.ts';
import { analyseResponse, type ResponseAnswer } from '#advice/response/response-answer.ts';
import type { ResponseQuestion } from '#advice/response/response-question.ts';
import type { CurvePoint } from '#core/estimate/level-noise.ts';
import type { Random } from '#core/numeric/random.ts';

/** A strip that a simulated hand can read and turn: `curveDb` is the curve as it stands, `turn` moves one adjuster and tells whether it moved. */
export interface HandStrip {
	readonly adjusters: readonly string[];
	curveDb(frequencyHz: number): number;
	turn(adjuster: string, turns: number): boolean;
}

/** How well the hand reads and sets, decibels of one standard deviation. */
export interface HandSkill {
	readonly readingDb: number;
	readonly settingDb: number;
}

function point(strip: HandStrip, random: Random, { readingDb }: HandSkill, frequencyHz: number): CurvePoint {
	return { frequencyHz, levelDb: strip.curveDb(frequencyHz) + readingDb * random.gaussian(), uncertaintyDb: null };
}

function sweep(strip: HandStrip, random: Random, skill: HandSkill, ifHz: number, role: 'base' | 'nudge'): CurvePoint[] {
	const points: CurvePoint[] = [];
	for (;;) {
		const next = nextFrequencyHz(points, ifHz, role);
		if (next === null) return points;
		points.push(point(strip, random, skill, next));
		points.sort((one, other) => one.frequencyHz - other.frequencyHz);
	}
}

/** Turns until the reading is at the mark, in the sense that the prescription says: it knows nothing but the meter. */
function turnToMark(strip: HandStrip, random: Random, skill: HandSkill, act: Prescription, nudgeWay: number): void {
	const read = (): number => strip.curveDb(act.generatorHz);
	const isRising = act.approach !== 'falling';
	const expectedDb = act.expectedDb + skill.settingDb * random.gaussian();
	const begin = read();
	const size = 1 / 32;
	let way = act.direction === null ? 1 : act.direction === 'same' ? nudgeWay : -nudgeWay;
	if (act.direction === null) {
		strip.turn(act.adjuster, way * size);
		const isRight = read() > begin === isRising;
		strip.turn(act.adjuster, -way * size);
		if (!isRight) way = -way;
	}
	let last = begin;
	let isPastPeak = act.approach === 'falling';
	for (let step = 0; step < 200; step++) {
		if (!strip.turn(act.adjuster, way * size)) break;
		const now = read();
		if (act.approach === 'over the peak' && !isPastPeak && now < last) isPastPeak = true;
		const isMarked = isPastPeak ? now <= expectedDb : act.approach === 'rising' && (now >= expectedDb || now < last);
		last = now;
		if (isMarked) break;
	}
	// Back and forth by less and less until the reading stands at the mark.
	let step = size / 2;
	let sign = -way;
	for (let fine = 0; fine < 12; fine++) {
		const before = Math.abs(read() - expectedDb);
		strip.turn(act.adjuster, sign * step);
		if (Math.abs(read() - expectedDb) > before) {
			strip.turn(act.adjuster, -sign * step);
			sign = -sign;
		}
		step *= 0.75;
	}
}

/** What a guided hand had to do. */
export interface GuidedWork {
	readonly answer: ResponseAnswer;
	readonly settings: number;
	readonly readings: number;
}

/** One round of guided work: base sweep, a nudge of each adjuster with nine points, once more where that is ambiguous, and the prescribed acts. */
export function guidedRound(
	strip: HandStrip,
	random: Random,
	skill: HandSkill,
	plain: Pick<ResponseQuestion, 'ifHz' | 'toneHz' | 'aim'>,
	nudgeTurns: number,
): GuidedWork {
	const base = sweep(strip, random, skill, plain.ifHz, 'base');
	const nudges: { name: string; points: CurvePoint[] }[] = [];
	const answered = (): ResponseAnswer => {
		for (const name of strip.adjusters) {
			strip.turn(name, nudgeTurns);
			nudges.push({ name, points: sweep(strip, random, skill, plain.ifHz, 'nudge') });
		}
		return analyseResponse({
			...plain,
			base,
			nudges,
			second: null,
			meterDb: skill.readingDb,
			generatorHz: 0,
			windingCount: 4,
		}).answer;
	};
	const first = answered();
	const isAmbiguous = first.findings.some(({ kind }) => kind === 'ambiguous');
	const answer = isAmbiguous ? answered() : first;
	const acts = answer.advice.filter((act): act is Prescription => act.generatorHz !== undefined);
	for (const act of acts) turnToMark(strip, random, skill, act, Math.sign(nudgeTurns));
	const readings = base.length + nudges.reduce((sum, { points }) => sum + points.length, 0) + 2 * acts.length;
	return { answer, settings: acts.length, readings };
}
