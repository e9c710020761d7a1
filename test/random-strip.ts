import type { CurvePoint } from '#core/estimate/level-noise.ts';
import type { Nudge } from '#core/estimate/nudge-fit.ts';
import { levelFunction } from '#core/estimate/response-model.ts';
import { stripModel } from '#core/estimate/strip-model.ts';
import { createRandom, type Random } from '#core/numeric/random.ts';
import { proposedSweep } from '#rehearsal/guided-round.ts';

export const ifHz = 455e3;

/** Feedback share of 0.003 pF with 2 mS between circuits of 120 pF at 455 kc: gm Cgp / (C2 C3) / (2 pi IF). */
export const mostFeedback = (2e-3 * 3e-15) / 120e-12 ** 2 / (2 * Math.PI * ifHz);

/** Parameters of a strip drawn at random: tunings scattered by 2 to 10 kc, Q 50 to 120, coupling 0.6 to 1.3 of critical. */
export function randomStrip({ uniform, gaussian }: Random, feedback = 0): number[] {
	const scaleHz = 2e3 * 5 ** uniform();
	const tunings = Array.from({ length: 4 }, () => Math.max(-20e3, Math.min(20e3, scaleHz * gaussian())) / ifHz);
	const qs = Array.from({ length: 4 }, () => 50 + 70 * uniform());
	const couplings = [0, 2].map(
		(first) => (0.6 + 0.7 * uniform()) / Math.sqrt((qs[first] as number) * (qs[first + 1] as number)),
	);
	return [...tunings, ...qs.map((q) => Math.log(1 / (2 * q))), ...couplings.map(Math.log), feedback];
}

/** True level at a frequency, tone of 400 c. */
export function trueLevelDb(parameters: readonly number[]): (frequencyHz: number) => number {
	const level = levelFunction(stripModel(), 400 / ifHz);
	const out = new Float64Array(12);
	return (frequencyHz) => {
		level(parameters, frequencyHz / ifHz, out);
		return out[0] as number;
	};
}

/** Readings of a strip: noise of the meter in dB, and noise of the receiver of a power that stands at `floorDb`. */
export function readings(
	random: Random,
	level: (frequencyHz: number) => number,
	frequenciesHz: readonly number[],
	meterDb: number,
	floorDb: number,
) {
	return frequenciesHz.map((frequencyHz) => {
		const trueDb = level(frequencyHz);
		const noise = Math.SQRT1_2 * 10 ** ((floorDb - trueDb) / 20);
		const seenDb = trueDb + 20 * Math.log10(Math.hypot(1 + noise * random.gaussian(), noise * random.gaussian()));
		return { frequencyHz, levelDb: seenDb + meterDb * random.gaussian(), uncertaintyDb: null };
	});
}

/** Frequencies evenly spaced about the IF. */
export function evenlySpaced(count: number, reachHz: number, centreHz = ifHz): number[] {
	return Array.from({ length: count }, (_, index) => centreHz - reachHz + (2 * reachHz * index) / (count - 1));
}

/** A random strip with feedback up to a share of the most. */
export function drawnStrip(random: Random, feedbackShare: number): number[] {
	return randomStrip(random, feedbackShare * mostFeedback * random.uniform());
}

/** How the sweeps of a nudge test are read: a base sweep, and one after each nudge. */
type SweepPlan = (
	role: 'base' | 'nudge',
	before: readonly CurvePoint[],
	read: (frequencyHz: number) => CurvePoint,
) => readonly CurvePoint[];

/** The points that the program asks for: 31, and 9 after each nudge. */
export const asProposed: SweepPlan = (role, before, read) => proposedSweep(ifHz, role, before, read);
/** Whole sweeps each time. */
export const wholeSweeps: SweepPlan = (_role, _before, read) => evenlySpaced(61, 30e3).map(read);

/** A random strip, its circuits nudged one after the other by 2.4 to 5.6 kc and left there, as a meter reads it; noise power 50 dB under the base sweep's top. */
export function nudgedStrip(
	seed: number,
	circuits: readonly number[],
	plan: SweepPlan,
	meterDb: number,
	feedbackShare: number,
) {
	const random = createRandom(seed);
	const strip = drawnStrip(random, feedbackShare);
	const topDb = Math.max(...evenlySpaced(61, 30e3).map(trueLevelDb(strip)));
	const read = (role: 'base' | 'nudge', before: readonly CurvePoint[]) => {
		const level = trueLevelDb([...strip]);
		return plan(
			role,
			before,
			(frequencyHz) => readings(random, level, [frequencyHz], meterDb, topDb - 50)[0] as CurvePoint,
		);
	};
	const base = read('base', []);
	const turnsHz: number[] = [];
	const nudges: Nudge[] = [];
	for (const circuit of circuits) {
		const turnHz = (random.uniform() < 0.5 ? -1 : 1) * (0.6 + 0.8 * random.uniform()) * 4e3;
		turnsHz.push(turnHz);
		strip[circuit] = (strip[circuit] as number) + turnHz / ifHz;
		nudges.push({ name: `adjuster ${circuit}`, points: read('nudge', nudges.at(-1)?.points ?? base) });
	}
	return { base, nudges, turnsHz, endsHz: [0, 1, 2, 3].map((circuit) => ifHz * (1 + (strip[circuit] as number))) };
}
