import { unstatedDb } from '#advice/coach/steadiness.ts';
import { correctedV, type MeasuredGenerator } from '#advice/marked-level.ts';
import { type AvcLaw, type AvcReading, avcLaw } from '#core/estimate/avc-law.ts';
import type { AvcLawBegun, AvcStep } from '#record/avc-steps.ts';
import { saysSame } from '#record/language.ts';
import type { LevelReading } from '#record/reading.ts';
import type { RunEntry } from '#record/run.ts';

/** One kept step of a law, with the entry that keeps it. */
export interface KeptAvcStep {
	readonly entry: string;
	readonly step: AvcStep;
}

/** The steps of one AVC law of a set, and how they were taken. */
export interface SteppedLaw {
	/** The entry that began it. */
	readonly id: string;
	readonly atMs: number;
	readonly begun: AvcLawBegun;
	readonly steps: readonly KeptAvcStep[];
}

/** What runs know of a set's AVC laws. */
export interface AvcWork {
	/** In the order in which they were begun. */
	readonly laws: readonly SteppedLaw[];
	/** Laws that hold no more, and why; they may have been taken in other runs. */
	readonly ended: readonly { readonly law: string; readonly why: string }[];
	/** Laws that hold in this run: taken in it, or held by a step of 6 dB. */
	readonly held: readonly string[];
}

/** Before the first step. */
export const noAvcWork: AvcWork = { laws: [], ended: [], held: [] };

/** What is known of a set's AVC laws after one more entry of a run; entries of other kinds leave it as it is. */
export function afterAvc(work: AvcWork, { id, atMs, what }: RunEntry): AvcWork {
	const without = (law: string): readonly string[] => work.held.filter((one) => one !== law);
	switch (what.kind) {
		case 'AVC law begun':
			return { ...work, laws: [...work.laws, { id, atMs, begun: what, steps: [] }], held: [...work.held, id] };
		case 'AVC step':
			return {
				...work,
				laws: work.laws.map((law) =>
					law.id === what.law ? { ...law, steps: [...law.steps, { entry: id, step: what }] } : law,
				),
			};
		case 'AVC law ended':
			return { ...work, ended: [...work.ended, what], held: without(what.law) };
		case '6 dB step':
			if (!what.byLaw || what.byLaw.verdict === 'uncertain') return work;
			return {
				...work,
				held: [...without(what.byLaw.law), ...(what.byLaw.verdict === 'holds' ? [what.byLaw.law] : [])],
			};
		case 'reproduced':
			return what.verdict === 'as left' ? work : { ...work, held: [] };
		case 'struck':
			return {
				...work,
				laws: work.laws.map((law) => ({ ...law, steps: law.steps.filter(({ entry }) => entry !== what.entry) })),
			};
		default:
			return work;
	}
}

/** A law that can be used: its steps fitted. */
export interface FittedLaw extends SteppedLaw {
	readonly law: AvcLaw;
	/** Meter and reference that the steps were read with: other readings it does not turn back. */
	readonly instrument: string;
	readonly reference: LevelReading['reference'];
	/** Whose attenuator table corrects its levels; `null` where they are taken as they were kept. */
	readonly corrected: MeasuredGenerator | null;
}

/** The steps of the meter and the reference of the last one, ascending in level. */
export function stepsThatCount({ steps }: SteppedLaw): readonly KeptAvcStep[] {
	const last = steps.at(-1)?.step.reading;
	return steps
		.filter(
			({ step: { reading } }) =>
				reading.trust === 'ok' &&
				reading.levelDb !== null &&
				reading.instrument === last?.instrument &&
				reading.reference === last.reference,
		)
		.toSorted((one, other) => one.step.levelV - other.step.levelV);
}

/**
 * The law that steps make; `null` while fewer than four of them rise.
 * @param generators those whose attenuator or leak was measured: levels by their marks are corrected
 */
export function fittedLaw(stepped: SteppedLaw, generators: readonly MeasuredGenerator[] = []): FittedLaw | null {
	const counting = stepsThatCount(stepped);
	const { markedBy } = stepped.begun;
	const readings = counting.map(({ step: { levelV, reading } }): AvcReading => {
		const input = correctedV(generators, markedBy, levelV);
		return {
			inputDb: 20 * Math.log10(input.levelV),
			outputDb: reading.levelDb?.value ?? 0,
			uncertaintyDb: reading.levelDb?.uncertainty ?? unstatedDb,
			inputUncertaintyDb: input.uncertaintyDb,
		};
	});
	const law = avcLaw(readings);
	const last = counting.at(-1)?.step.reading;
	if (!law || !last) return null;
	const corrected = generators.find(({ name, table }) => name === markedBy && table.markedIn === 'volts') ?? null;
	return { ...stepped, law, instrument: last.instrument, reference: last.reference, corrected };
}

/** How a set's laws stand to the readings of one place. */
export interface LawStanding {
	/** Turns readings back now; `null` where none holds. */
	readonly held: FittedLaw | null;
	/** The newest that was taken here, whether or not it holds; `null` where none was. */
	readonly newest: FittedLaw | null;
}

/**
 * The law for readings of one meter with the generator at one place.
 * @param elsewhere laws of the set from other runs
 * @param point where the generator's lead is
 * @param generators those whose attenuator or leak was measured
 */
export function lawFor(
	own: AvcWork,
	elsewhere: AvcWork,
	point: string,
	reading: Pick<LevelReading, 'instrument' | 'reference'> | null,
	generators: readonly MeasuredGenerator[] = [],
): LawStanding {
	const over = new Set([...own.ended, ...elsewhere.ended].map(({ law }) => law));
	const fitted = [...elsewhere.laws, ...own.laws]
		.filter(({ id, begun }) => !over.has(id) && saysSame(begun.point, point))
		.flatMap((stepped) => fittedLaw(stepped, generators) ?? [])
		.filter(
			({ instrument, reference }) =>
				reading === null || (instrument === reading.instrument && reference === reading.reference),
		)
		.toSorted((one, other) => one.atMs - other.atMs);
	return { held: fitted.findLast(({ id }) => own.held.includes(id)) ?? null, newest: fitted.at(-1) ?? null };
}
