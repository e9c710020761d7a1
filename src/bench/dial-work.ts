import type { DialActDone, DialGear, DialReading, GeneratorCheck } from '#record/dial-reading.ts';

/** One kept reading of a dial, with the entry that keeps it. */
export interface KeptDialReading {
	readonly entry: string;
	readonly reading: DialReading;
}

/** One kept check of a generator, with when it was made, milliseconds since 1970. */
export interface KeptGeneratorCheck {
	readonly entry: string;
	readonly atMs: number;
	readonly check: GeneratorCheck;
}

/** What a run knows of its dials. */
export interface DialWork {
	readonly readings: readonly KeptDialReading[];
	readonly acts: readonly DialActDone[];
	readonly checks: readonly KeptGeneratorCheck[];
	/** The latest gear of each band. */
	readonly gears: readonly DialGear[];
}

/** A run before its first reading of a dial. */
export const noDialWork: DialWork = { readings: [], acts: [], checks: [], gears: [] };

/** The dial's part of a run after one more entry about it. */
export function afterDial(
	work: DialWork,
	{ id: entry, atMs }: { readonly id: string; readonly atMs: number },
	what: DialReading | DialActDone | DialGear | GeneratorCheck,
): DialWork {
	switch (what.kind) {
		case 'dial reading':
			return { ...work, readings: [...work.readings, { entry, reading: what }] };
		case 'dial act':
			return { ...work, acts: [...work.acts, what] };
		case 'generator check':
			return { ...work, checks: [...work.checks, { entry, atMs, check: what }] };
		case 'dial gear':
			return { ...work, gears: [...work.gears.filter(({ band }) => band !== what.band), what] };
	}
}

/** The dial's part of a run without a reading that was struck. */
export function withoutReading(work: DialWork, entry: string): DialWork {
	return {
		...work,
		readings: work.readings.filter((kept) => kept.entry !== entry),
		checks: work.checks.filter((kept) => kept.entry !== entry),
	};
}

/** The pass that a band is in: one more than the passes that were ended. */
export function dialPass(work: DialWork, band: string): number {
	return work.acts.filter((act) => act.band === band && act.endsPass).length;
}
