import type { Prescription } from '#advice/response/prescription.ts';
import type { Random } from '#core/numeric/random.ts';
import type { StripInHand } from '#rehearsal/guided-round.ts';

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

/** A strip in a hand that reads with chance and watches the needle steadily while it turns. */
export function steadyHand(strip: HandStrip, random: Random, skill: HandSkill): StripInHand {
	return {
		adjusters: strip.adjusters,
		readDb: (frequencyHz) => strip.curveDb(frequencyHz) + skill.readingDb * random.gaussian(),
		turn: (adjuster, turns) => void strip.turn(adjuster, turns),
		follow: (act, nudgeTurns) => turnToMark(strip, random, skill, act, Math.sign(nudgeTurns)),
	};
}
