import type { DialActDone, DialGear, DialReading, GeneratorCheck } from '#record/dial-reading.ts';
import type { GeneratorTrial } from '#record/generator-trial.ts';

/** One kept reading of a dial, with the entry that keeps it. */
export interface KeptDialReading {
	readonly entry: string;
	/** Counted with the acts, so that the order of both is known. */
	readonly place: number;
	readonly reading: DialReading;
}

/** One act that was done, with the entry that keeps it. */
export interface KeptDialAct {
	readonly entry: string;
	readonly place: number;
	readonly act: DialActDone;
}

/** One kept check of a generator, with when it was made, milliseconds since 1970. */
export interface KeptGeneratorCheck {
	readonly entry: string;
	readonly atMs: number;
	readonly check: GeneratorCheck;
}

/** One kept trial of a generator, with when it was made, milliseconds since 1970. */
export interface KeptGeneratorTrial {
	readonly entry: string;
	readonly atMs: number;
	readonly trial: GeneratorTrial;
}

/** What a run knows of its dials, and of the generators that they are read with. */
export interface DialWork {
	readonly readings: readonly KeptDialReading[];
	readonly acts: readonly KeptDialAct[];
	/** How many readings and acts were kept. */
	readonly count: number;
	readonly checks: readonly KeptGeneratorCheck[];
	readonly trials: readonly KeptGeneratorTrial[];
	/** The latest gear of each band. */
	readonly gears: readonly DialGear[];
}

/** A run before its first reading of a dial. */
export const noDialWork: DialWork = { readings: [], acts: [], count: 0, checks: [], trials: [], gears: [] };

/** The dial's part of a run after one more entry about it. */
export function afterDial(
	work: DialWork,
	{ id: entry, atMs }: { readonly id: string; readonly atMs: number },
	what: DialReading | DialActDone | DialGear | GeneratorCheck | GeneratorTrial,
): DialWork {
	switch (what.kind) {
		case 'dial reading':
			return {
				...work,
				count: work.count + 1,
				readings: [...work.readings, { entry, place: work.count, reading: what }],
			};
		case 'dial act':
			return { ...work, count: work.count + 1, acts: [...work.acts, { entry, place: work.count, act: what }] };
		case 'generator check':
			return { ...work, checks: [...work.checks, { entry, atMs, check: what }] };
		case 'generator trial':
			return { ...work, trials: [...work.trials, { entry, atMs, trial: what }] };
		case 'dial gear':
			return { ...work, gears: [...work.gears.filter(({ band }) => band !== what.band), what] };
	}
}

/** The dial's part of a run without a reading, a check or an act that was struck. */
export function withoutReading(work: DialWork, entry: string): DialWork {
	return {
		...work,
		readings: work.readings.filter((kept) => kept.entry !== entry),
		acts: work.acts.filter((kept) => kept.entry !== entry),
		checks: work.checks.filter((kept) => kept.entry !== entry),
		trials: work.trials.filter((kept) => kept.entry !== entry),
	};
}

/** The pass that a band is in: one more than the passes that were ended. */
export function dialPass(work: DialWork, band: string): number {
	return work.acts.filter(({ act }) => act.band === band && act.endsPass).length;
}

/** Acts of a band's pass that is under way. */
export function passActs(work: DialWork, band: string): readonly KeptDialAct[] {
	const own = work.acts.filter(({ act }) => act.band === band);
	return own.slice(own.findLastIndex(({ act }) => act.endsPass) + 1);
}
