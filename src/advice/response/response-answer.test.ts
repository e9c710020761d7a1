import { expect, test } from 'vitest';
import { avcLaw } from '#core/estimate/avc-law.ts';
import type { CurvePoint } from '#core/estimate/level-noise.ts';
import { createRandom } from '#core/numeric/random.ts';
import { asProposed, evenlySpaced, ifHz, randomStrip, readings, trueLevelDb } from '../../../test/random-strip.ts';
import { meantAim } from './findings.ts';
import { analyseResponse } from './response-answer.ts';
import type { ResponseQuestion } from './response-question.ts';

/** A random strip on the bench: it can be read and its circuits can be moved. */
class BenchStrip {
	readonly random;
	readonly strip: number[];
	readonly topDb: number;

	constructor(seed: number) {
		this.random = createRandom(seed);
		this.strip = randomStrip(this.random);
		this.topDb = Math.max(...evenlySpaced(61, 30e3).map(trueLevelDb(this.strip)));
	}

	levelDb(frequencyHz: number): number {
		return trueLevelDb(this.strip)(frequencyHz);
	}

	read(frequenciesHz: readonly number[]) {
		return readings(this.random, (frequencyHz) => this.levelDb(frequencyHz), frequenciesHz, 0.1, this.topDb - 50);
	}

	move(circuit: number, hertz: number): void {
		this.strip[circuit] = (this.strip[circuit] as number) + hertz / ifHz;
	}
}

const plain: Omit<ResponseQuestion, 'base'> = {
	nudges: [],
	second: null,
	ifHz,
	toneHz: 400,
	meterDb: 0.1,
	generatorHz: 0,
	aim: { kind: 'on IF' },
	windingCount: 4,
};

function nudgedQuestion(bench: BenchStrip): ResponseQuestion {
	const read = (frequencyHz: number) => bench.read([frequencyHz])[0] as CurvePoint;
	const base = asProposed('base', [], read);
	let before = base;
	const nudges = [0, 1, 2, 3].map((circuit) => {
		bench.move(circuit, circuit % 2 === 0 ? 3e3 : -3e3);
		before = asProposed('nudge', before, read);
		return { name: String(circuit), points: before };
	});
	return { ...plain, base, nudges };
}

test('one sweep names no adjuster and shows how far its twins spread', () => {
	const bench = new BenchStrip(41);
	const { answer } = analyseResponse({ ...plain, base: bench.read(evenlySpaced(61, 30e3)) });
	expect(answer.adjusters).toEqual([]);
	expect(answer.poles).toHaveLength(4);
	expect(answer.findings.map(({ kind }) => kind)).toContain('twins');
	expect(answer.refused).toBeUndefined();
});

// The hand turns until the true level is the one that was prescribed, and is then where the prescription says: proof on the strip itself, not on the fit.
test('prescriptions, followed by reading alone, bring every circuit to the IF', () => {
	for (const seed of [51, 52, 53]) {
		const bench = new BenchStrip(seed);
		const { answer } = analyseResponse(nudgedQuestion(bench));
		expect(answer.refused).toBeUndefined();
		for (const act of answer.advice) {
			if (act.generatorHz === undefined || act.moveHz === undefined) continue;
			const circuit = Number(act.adjuster);
			const isAt = (hertz: number): number => {
				const strip = [...bench.strip];
				strip[circuit] = (strip[circuit] as number) + hertz / ifHz;
				return trueLevelDb(strip)(act.generatorHz as number);
			};
			const wantedDb = (act.expectedDb as number) + isAt(0) - (act.referenceDb as number);
			// The hand turns on from two thirds of the way until the reading is passed.
			let low = (2 / 3) * act.moveHz;
			let high = (4 / 3) * act.moveHz;
			const rises = isAt(high) > isAt(low);
			for (let step = 0; step < 40; step++) {
				const middle = (low + high) / 2;
				if (isAt(middle) < wantedDb === rises) low = middle;
				else high = middle;
			}
			bench.move(circuit, low);
		}
		for (const circuit of [0, 1, 2, 3]) expect(Math.abs((bench.strip[circuit] as number) * ifHz)).toBeLessThan(900);
		expect(Math.abs(bench.levelDb(ifHz + 5e3) - bench.levelDb(ifHz - 5e3))).toBeLessThan(3);
	}
});

test('a symmetrical aim is more symmetrical than every circuit on the IF when there is feedback, and both are priced', () => {
	const bench = new BenchStrip(61);
	bench.strip[10] = 1e-4;
	const { answer } = analyseResponse(nudgedQuestion(bench));
	const [onIf, symmetrical] = answer.aims;
	expect(onIf?.atIfDb).toBe(0);
	expect(Math.abs(symmetrical?.asymmetryDb5kHz ?? 9)).toBeLessThan(Math.abs(onIf?.asymmetryDb5kHz ?? 0));
});

test('a generator known to kilocycles only names no adjuster, and says why', () => {
	const bench = new BenchStrip(71);
	const { answer } = analyseResponse({ ...nudgedQuestion(bench), generatorHz: 1000 });
	expect(answer.adjusters).toEqual([]);
	expect(answer.refused).toContain('no adjuster is named');
	// The way that needs no curve is offered, its dangers first.
	expect(answer.advice[0]?.words).toContain('unplugged');
	expect(answer.advice.map(({ words }) => words).join(' ')).toContain('across one winding');
});

test('a curve with a hole that four tuned circuits cannot make is refused with likely causes', () => {
	const bench = new BenchStrip(81);
	const base = bench.read(evenlySpaced(61, 30e3)).map((point) => ({
		...point,
		levelDb: Math.abs(point.frequencyHz - 458e3) < 1200 ? point.levelDb - 6 : point.levelDb,
	}));
	const { answer } = analyseResponse({ ...plain, base });
	expect(answer.refused).toContain('Likely');
	expect(answer.poles).toEqual([]);
});

test('one nudge leaves the other can unknown, and asks for its nudge', () => {
	const bench = new BenchStrip(91);
	const base = bench.read(evenlySpaced(61, 30e3));
	bench.move(0, 3e3);
	const nudges = [{ name: 'T1', points: bench.read(evenlySpaced(61, 30e3)) }];
	const { answer } = analyseResponse({ ...plain, base, nudges });
	expect(answer.findings.map(({ kind }) => kind)).toContain('one can only');
	expect(answer.advice).toEqual([]);
});

test('a proof that was read before any nudge takes no can for itself', () => {
	const bench = new BenchStrip(51);
	const question = nudgedQuestion(bench);
	const proof = { name: null, points: question.base };
	const { answer } = analyseResponse({ ...question, nudges: [proof, ...question.nudges] });
	expect(answer.adjusters.map(({ name, can }) => [name, can])).toEqual([
		['0', 1],
		['1', 1],
		['2', 2],
		['3', 2],
	]);
});

test('a proof that the law of the set does not reach leaves the base curve standing', () => {
	const bench = new BenchStrip(41);
	const base = bench.read(evenlySpaced(61, 20e3));
	const levels = base.map(({ levelDb }) => levelDb);
	const [least, most] = [Math.min(...levels) - 1, Math.max(...levels) + 1];
	// A set without AVC: what goes in comes out.
	const law = avcLaw(
		[0, 1, 2, 3, 4].map((step) => {
			const inputDb = least + ((most - least) * step) / 4;
			return { inputDb, outputDb: inputDb, uncertaintyDb: 0.01 };
		}),
	);
	if (law === null) throw new Error('no law');
	const weak = base.map((point) => ({ ...point, levelDb: point.levelDb - 200 }));
	const alone = analyseResponse({ ...plain, base, law }).answer;
	const { answer } = analyseResponse({ ...plain, base, law, nudges: [{ name: null, points: weak }] });
	expect(answer.bandwidths).toEqual(alone.bandwidths);
	expect(answer.findings.map(({ kind }) => kind)).toContain('outside law');
});

test('eleven readings without a known meter still give a width, and say what was assumed', () => {
	const bench = new BenchStrip(95);
	const { answer } = analyseResponse({ ...plain, meterDb: null, base: bench.read(evenlySpaced(8, 14e3)) });
	expect(answer.findings.map(({ kind }) => kind)).toEqual(expect.arrayContaining(['meter assumed', 'few points']));
	expect(answer.bandwidths.length).toBeGreaterThan(0);
});

// Three windings are three resonances: a curve is drawn here by the formula of such a product, u^(3/2) / |D1 D2 D3|, D = w^2 - u^2 + j u w / Q.
test('a strip of three windings gets its three resonances and names no adjuster', () => {
	const resonances = [
		{ hz: 452e3, q: 70 },
		{ hz: 455e3, q: 80 },
		{ hz: 459e3, q: 75 },
	];
	const base = evenlySpaced(41, 20e3).map((frequencyHz) => {
		const u = frequencyHz / ifHz;
		const levelDb = resonances.reduce((sum, { hz, q }) => {
			const real = (hz / ifHz) ** 2 - u * u;
			return sum + 10 * Math.log10(u) - 10 * Math.log10(real ** 2 + (u * (hz / ifHz / q)) ** 2);
		}, 0);
		return { frequencyHz, levelDb, uncertaintyDb: null };
	});
	const { answer } = analyseResponse({ ...plain, base, toneHz: 0, meterDb: 0.02, windingCount: 3 });
	expect(answer.refused).toBeUndefined();
	expect(answer.findings.map(({ kind }) => kind)).toContain('other strip');
	// What can be done without naming an adjuster is offered, its dangers first.
	expect(answer.advice[0]?.words).toContain('unplugged');
	expect(answer.advice.map(({ words }) => words).join(' ')).toContain('one across each of the other two');
	for (const [place, { frequencyHz, q }] of answer.poles.entries()) {
		expect(Math.abs(frequencyHz.value - (resonances[place]?.hz ?? 0))).toBeLessThan(200);
		expect(Math.abs(q.value / (resonances[place]?.q ?? 1) - 1)).toBeLessThan(0.05);
	}
});

// AVC that turns decibels above -20 dB of the top into half as many, applied here to a strip's curve: 6 dB read 3.
test('a second sweep takes AVC out of the first, whether it is the weaker or the stronger one', () => {
	const bench = new BenchStrip(97);
	const sweep = (byDb: number) =>
		evenlySpaced(61, 20e3).map((frequencyHz) => {
			const inputDb = bench.levelDb(frequencyHz) - bench.topDb + byDb;
			return { frequencyHz, levelDb: inputDb > -20 ? -20 + (inputDb + 20) / 2 : inputDb, uncertaintyDb: null };
		});
	const width = (base: ReturnType<typeof sweep>, second: ReturnType<typeof sweep> | null) =>
		analyseResponse({ ...plain, meterDb: 0.02, base, second }).answer.bandwidths.find(
			({ belowPeakDb }) => belowPeakDb === 6,
		)?.widthHz.value ?? Number.NaN;
	const truth = width(
		evenlySpaced(61, 20e3).map((frequencyHz) => ({
			frequencyHz,
			levelDb: bench.levelDb(frequencyHz),
			uncertaintyDb: null,
		})),
		null,
	);
	expect(width(sweep(0), null) / truth).toBeGreaterThan(1.1);
	expect(Math.abs(width(sweep(0), sweep(-6)) / truth - 1)).toBeLessThan(0.03);
	expect(Math.abs(width(sweep(-6), sweep(0)) / truth - 1)).toBeLessThan(0.03);
});

test('an intended stagger is said, and the aim that would take it out is warned of', () => {
	const bench = new BenchStrip(41);
	const question = { ...plain, shape: 'staggered', base: bench.read(evenlySpaced(61, 30e3)) } as const;
	const said = (aim: ResponseQuestion['aim']): string =>
		analyseResponse({ ...question, aim }).answer.findings.find(({ kind }) => kind === 'meant so')?.words ?? '';
	expect(said({ kind: 'on IF' })).toContain('take the stagger out');
	expect(said({ kind: 'symmetrical' })).not.toContain('take the stagger out');
	expect(meantAim({ shape: 'staggered' })).toEqual({ kind: 'symmetrical' });
});
