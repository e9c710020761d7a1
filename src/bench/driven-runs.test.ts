import { expect, test } from 'vitest';
import { oscillatorAsk, oscillatorMarksHz } from '#advice/tests/asks.ts';
import { usualGear } from '#advice/tests/gear.ts';
import { testMarks } from '#advice/tests/marks.ts';
import { proofOf } from '#advice/tests/proof.ts';
import { valuesAt } from '#core/receiver/bench-set.ts';
import { tm517 } from '#core/receiver/designs/tm-517.ts';
import { SteadyState } from '#core/receiver/operating-point.ts';
import { inputForOutputV, receivedHz } from '#core/receiver/sensitivity.ts';
import { standardTone } from '#core/receiver/signal.ts';
import { tamperedSet } from '#core/receiver/truth.ts';
import {
	answerOf,
	circuitsHz,
	drivenBench,
	facts,
	figuresOf,
	ifStep,
	nudgePlan,
	standing,
} from '../../test/driven-bench.ts';
import { readDial } from './dial-run.ts';
import { sweepIf } from './if-sweep.ts';
import { sweepWithNudges } from './nudge-run.ts';
import { countingPoints, type RunSweep } from './sweep-log.ts';
import { drivenTests, readTests } from './test-run.ts';
import type { WorkGround } from './work-ground.ts';

const decibels = (ratio: number): number => 20 * Math.log10(ratio);

// Sensitivity for 50 mW, 400 c, 30 %, and the rejections, as ratios of inputs for the same output: [kennedy]; here against the circuits at rest,
// solved without any course of time by another search.
test('the standard tests that run by themselves find what the circuits give, and are entries as the hand-made ones are', async () => {
	const { clock, set, bench, work, panel, done } = await drivenBench(3, 'ANT');
	const gear = { ...usualGear(facts, 'before'), generatorLimitDb: 0.5, attenuatorLimitDb: 0.2 };
	await bench.keepTestGear(gear);
	const end = await readTests(work, bench, facts, gear, drivenTests);
	expect(end).toMatchObject({ kind: 'read', readings: 41 });
	expect(panel.line('OUTP?').reply).toBe('0');
	expect(done.at(-1)).toBe(1);
	// Honest settling of AVC and a bracket for each level take about ten seconds a reading.
	expect(clock.ms).toBeLessThan(600e3);
	const { before } = proofOf(facts, bench.state.testGear, bench.state.testReadings);
	const figures = figuresOf(standing(set, 3));
	const findingOf = (id: string): number => before?.findings.find((one) => one.id === id)?.value?.value ?? Number.NaN;
	for (const [k, mark] of [600, 1000, 1400].entries()) {
		expect(Math.abs(decibels(findingOf(`sensitivity ${mark} kc`) / (figures.sensitivityV[k] ?? 0)))).toBeLessThan(0.15);
		expect(Math.abs(findingOf(`image ${mark} kc`) - (figures.imageDb[k] ?? 0))).toBeLessThan(0.2);
		expect(Math.abs(findingOf(`dial ${mark} kc`) - (figures.dialErrorHz[k] ?? 0))).toBeLessThan(500);
	}
	// Oscillator less IF is what is received: by the circuits at rest.
	const own = standing(set, 3);
	for (const dialHz of oscillatorMarksHz(testMarks(facts))) {
		const missHz = findingOf(oscillatorAsk(dialHz)) - 455e3 - receivedHz(own, dialHz);
		expect([dialHz, Math.abs(missHz) < 600 ? 'right' : missHz]).toEqual([dialHz, 'right']);
	}
	for (const [k, ratio] of [2, 10, 100, 1000].entries())
		expect(findingOf(`width ${ratio}`) / (figures.widthsHz[k] ?? 0)).toBeCloseTo(1, 2);
	expect(Math.abs(findingOf('IF') - (figures.ifDb ?? 0))).toBeLessThan(0.2);
	expect(Math.abs(findingOf('AVC') - (figures.avcDb ?? 0))).toBeLessThan(0.3);
	expect(Math.abs(findingOf('channel below') - (figures.adjacentDb[0] ?? 0))).toBeLessThan(0.3);
	expect(Math.abs(findingOf('channel above') - (figures.adjacentDb[1] ?? 0))).toBeLessThan(0.3);
});

test('no act of a search raises the level by more than 10 dB', async () => {
	const { set, bench, work, gear } = await drivenBench(4, 'ANT');
	const levelsV = [set.state.levelV];
	const generator: WorkGround['generator'] = {
		...gear.generator,
		setLevel: (levelV) => {
			levelsV.push(levelV);
			return gear.generator.setLevel(levelV);
		},
	};
	const own = usualGear(facts, 'before');
	await bench.keepTestGear(own);
	await readTests({ ...work, generator }, bench, facts, own, ['sensitivity', 'rejection']);
	expect(levelsV.length).toBeGreaterThan(20);
	const rises = levelsV.slice(1).map((levelV, k) => decibels(levelV / (levelsV[k] as number)));
	expect(Math.max(...rises)).toBeLessThan(10 + 1e-6);
});

test('a generator that does not reach far enough gives readings that say so, and the work goes on', async () => {
	const { bench, work, gear } = await drivenBench(3, 'ANT');
	const weak: WorkGround['generator'] = {
		...gear.generator,
		setLevel: async (levelV) =>
			levelV > 2e-3 ? { kind: 'refused', words: 'too much' } : gear.generator.setLevel(levelV),
	};
	const own = usualGear(facts, 'before');
	await bench.keepTestGear(own);
	const end = await readTests({ ...work, generator: weak }, bench, facts, own, ['sensitivity', 'rejection']);
	expect(end.kind).toBe('read');
	const { testReadings } = bench.state;
	expect(testReadings.find(({ ask }) => ask === 'sensitivity 1000 kc')?.value).toBeGreaterThan(1e-5);
	expect(testReadings.find(({ ask }) => ask === 'image 1000 kc')?.value).toBe(null);
});

test('a dial is read mark by mark, each within what it says', async () => {
	const { set, bench, work, clock } = await drivenBench(3, 'ANT');
	const [band] = facts.bands;
	const marksHz = [540e3, 700e3, 1000e3, 1200e3, 1600e3];
	const end = await readDial(work, bench, { band: band?.id ?? '', marksHz, outputV: 0.4 });
	expect(end).toEqual({ kind: 'dial read', marks: 5 });
	expect(clock.ms).toBeLessThan(120e3);
	const own = standing(set, 3);
	for (const { reading } of bench.state.dial.readings)
		expect(Math.abs(reading.heardHz - receivedHz(own, reading.dialHz))).toBeLessThan(3 * reading.heardUncertaintyHz);
});

test('after a nudge of each adjuster the curves name every circuit of the strip and where it sits', async () => {
	const { set, bench, work, done, panel, clock } = await drivenBench(7, 'GRID');
	const { adjusters } = nudgePlan;
	expect(await sweepWithNudges(work, bench, ifStep, nudgePlan)).toEqual({ kind: 'curves', curves: 5 });
	expect(clock.ms).toBeLessThan(180e3);
	expect(panel.line('OUTP?').reply).toBe('0');
	expect(done.at(-1)).toBe(1);
	expect(bench.state.turns.map(({ adjuster, eighths }) => [adjuster, eighths])).toEqual(
		adjusters.map(({ id }) => [id, 1]),
	);
	const [base] = bench.state.sweeps;
	// The same curve without a meter: the input that each frequency needs for one and the same output, in the circuits at rest before the nudges.
	const rest = new SteadyState(valuesAt(tamperedSet(tm517, 7), 0, 0.1));
	const needed = (frequencyHz: number): number =>
		decibels(inputForOutputV(rest, { ...standardTone, frequencyHz, into: 'converter grid' }, 0.2) ?? Number.NaN);
	const points = countingPoints(base as RunSweep);
	const first = points[30] as (typeof points)[number];
	expect(points.length).toBeGreaterThan(50);
	for (const { frequencyHz, levelDb } of points) {
		const ownDb = needed(first.frequencyHz) - needed(frequencyHz);
		// AVC at work and the tone's sidebands on steep flanks leave a third of a decibel over 25.
		expect(Math.abs(levelDb - first.levelDb - ownDb)).toBeLessThan(0.4);
	}
	const answer = answerOf(bench.state.sweeps);
	expect(answer.refused).toBeUndefined();
	expect(answer.adjusters).toHaveLength(4);
	for (const { name, frequencyHz } of answer.adjusters) {
		const place = tm517.windings.findIndex(({ adjuster }) => adjuster === name);
		expect(Math.abs(frequencyHz.value - (circuitsHz(set)[place] ?? 0)), name).toBeLessThan(500);
	}
});

test('an adjuster that the hand leaves as it is has no curve', async () => {
	const { bench, work } = await drivenBench(7, 'GRID');
	const hand = { ...work.hand, nudge: async () => null };
	expect(await sweepWithNudges({ ...work, hand }, bench, ifStep, { ...nudgePlan, points: 21 })).toEqual({
		kind: 'curves',
		curves: 1,
	});
	expect(bench.state.turns).toEqual([]);
});

test('after a pause the generator is set anew and the last reading has to come out again', async () => {
	const plan = {
		name: 'IF sweep',
		centreHz: 455e3,
		spanHz: 40e3,
		points: 21,
		...standardTone,
		levelV: 3e-3,
		level: 'as it is',
	} as const;
	const asked: string[] = [];
	let readings = 0;
	const during = { act: (): void => undefined };
	const { panel, set, work } = await drivenBench(3, 'GRID', {
		agrees: async (words) => {
			asked.push(words);
			return false;
		},
		turn: async () => {
			if (++readings !== 30) return 'on';
			panelOff.line('OUTP OFF;:POW -90;:AM:STAT OFF;:FREQ 1 MHZ');
			during.act();
			return 'resumed';
		},
	});
	const panelOff = panel;
	const whole = await sweepIf(work, plan);
	if (whole.kind !== 'swept') throw new Error(JSON.stringify(whole));
	expect(asked).toEqual([]);
	const steady = new SteadyState(set.values);
	for (const { frequencyHz, levelDb } of whole.points) {
		const { toneV } = steady.operatingPoint({
			...standardTone,
			frequencyHz,
			levelV: plan.levelV,
			into: 'converter grid',
		});
		expect(Math.abs(levelDb - decibels(toneV))).toBeLessThan(0.2);
	}
	// A screw that was turned meanwhile is noticed.
	readings = 0;
	during.act = () => void set.turn('if2-secondary', 0.5);
	expect(await sweepIf(work, plan)).toEqual({ kind: 'stopped' });
	expect(asked).toHaveLength(1);
	expect(asked[0]).toMatch(/comes out \d+\.\d dB lower|higher now/);
	expect(panel.line('OUTP?').reply).toBe('0');
});
