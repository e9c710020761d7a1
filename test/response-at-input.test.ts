import { expect, test } from 'vitest';
import { analyseResponse } from '#advice/response/response-answer.ts';
import { readCurve } from '#core/estimate/curve-reading.ts';
import { createRandom } from '#core/numeric/random.ts';
import { standardTone } from '#core/receiver/signal.ts';
import type { VirtualSet } from '#instruments/virtual/virtual-set.ts';
import { guidedRound, proposedSweep } from '#rehearsal/guided-round.ts';
import { steadyHand } from './guided-hand.ts';
import { point, steppedSet, strongV, toneV } from './stepped-set.ts';

const ifHz = 455e3;
const plain = { ifHz, toneHz: 400, aim: { kind: 'on IF' } } as const;
const question = { ...plain, nudges: [], second: null, meterDb: null, generatorHz: 0, windingCount: 4 } as const;
/** A digital meter's last digit, decibels. */
const readingDb = 0.05;

function place(set: VirtualSet, frequencyHz: number): void {
	set.place({ frequencyHz, ...standardTone, into: point }, 1000e3);
}

/** A point of the truth: the generator's level for one and the same output of the circuits at rest, upside down, by halving. */
function atOneOutput(set: VirtualSet, frequencyHz: number) {
	place(set, frequencyHz);
	let [lowDb, highDb] = [-120, 0];
	for (let halving = 0; halving < 30; halving++) {
		const middleDb = (lowDb + highDb) / 2;
		if (toneV(set, 10 ** (middleDb / 20)) < 0.05) lowDb = middleDb;
		else highDb = middleDb;
	}
	return { frequencyHz, levelDb: -lowDb, uncertaintyDb: 0.001 };
}

function widthOf(curve: ReturnType<typeof readCurve>): number {
	return curve.bandwidths.find(({ belowPeakDb }) => belowPeakDb === 6)?.widthHz.value ?? Number.NaN;
}

test('far above the knee a law of the set gives the curve its true width, which the bare readings flatten', async () => {
	for (const seed of [12, 14, 15, 18]) {
		const { set, held } = await steppedSet(seed);
		const base = proposedSweep(ifHz, 'base', [], (frequencyHz) => {
			place(set, frequencyHz);
			return { frequencyHz, levelDb: set.read(0).levelDb?.value ?? Number.NaN, uncertaintyDb: null };
		});
		const truth = widthOf(
			readCurve(
				proposedSweep(ifHz, 'base', [], (hz) => atOneOutput(set, hz)),
				0.01,
				ifHz,
			),
		);
		const bare = analyseResponse({ ...question, base });
		const { answer, measured } = analyseResponse({ ...question, base, law: held.law });
		expect(bare.answer.levelsAt).toBeUndefined();
		expect(answer.levelsAt).toBe('input');
		expect(measured.outsideLawCount).toBe(0);
		expect(widthOf(bare.measured.curve) / truth).toBeGreaterThan(1.25);
		// The set's own gain, and with it what feeds back, is another at each reading: the curve is not one curve to better than that.
		expect(Math.abs(widthOf(measured.curve) / truth - 1)).toBeLessThan(0.06);
		expect(answer.refused).toBeUndefined();
	}
});

test('the whole work is done far above the knee by a law of the set, each mark told as the meter shows it', async () => {
	const offHz: number[] = [];
	for (const seed of [12, 14, 15, 16]) {
		const { set, held } = await steppedSet(seed);
		const curveDb = (frequencyHz: number): number => {
			place(set, frequencyHz);
			return 20 * Math.log10(toneV(set, strongV));
		};
		const adjusters = ['if2-secondary', 'if2-primary', 'if1-secondary', 'if1-primary'];
		const strip = { adjusters, curveDb, turn: (adjuster: string, turns: number) => set.turn(adjuster, turns) };
		const missesDb: number[] = [];
		const hand = steadyHand(strip, createRandom(seed), { readingDb, settingDb: readingDb });
		const watched: typeof hand = {
			...hand,
			follow: (act, nudgeTurns) => {
				missesDb.push(Math.abs(curveDb(act.generatorHz) - act.referenceDb));
				hand.follow(act, nudgeTurns);
			},
		};
		const { acts, answer } = guidedRound(watched, { ...plain, law: held.law }, readingDb, 1 / 8);
		expect(answer.levelsAt).toBe('input');
		expect(acts.length).toBeGreaterThan(2);
		expect(acts.length).toBeLessThanOrEqual(8);
		// What was foretold of the reading before the first turn is what the meter shows.
		expect(missesDb[0]).toBeLessThan(0.4);
		offHz.push(
			...set.values.windings.map(({ henry, farad }) => Math.abs(1 / (2 * Math.PI * Math.sqrt(henry * farad)) - ifHz)),
		);
	}
	const [middleHz] = offHz.sort((one, other) => one - other).slice(offHz.length >> 1);
	expect(middleHz).toBeLessThan(400);
});

test('a second sweep 6 dB weaker shows whether the law still holds', async () => {
	const { set, held } = await steppedSet(14);
	const sweep = () =>
		proposedSweep(ifHz, 'base', [], (frequencyHz) => {
			place(set, frequencyHz);
			return { frequencyHz, levelDb: set.read(0).levelDb?.value ?? Number.NaN, uncertaintyDb: null };
		});
	const both = () => {
		const base = sweep();
		set.changeLevel(-6);
		const second = sweep();
		set.changeLevel(6);
		return analyseResponse({ ...question, base, second, law: held.law }).answer;
	};
	const holds = both();
	expect(holds.findings.map(({ kind }) => kind)).not.toContain('law holds no more');
	expect(Math.abs((holds.compression?.of6Db ?? 0) - 6)).toBeLessThan(0.3);
	// Volume turned up until the output tube flattens the wave: the reading answers otherwise.
	set.setVolume(0.3);
	expect(both().findings.map(({ kind }) => kind)).toContain('law holds no more');
});
