import type { DialActDone, DialGear, DialReading, GeneratorCheck } from '#record/dial-reading.ts';
import type { GeneratorTrial } from '#record/generator-trial.ts';
import type { Adjuster, SetCard } from '#record/set-card.ts';

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

/** One turn at the bench of an adjuster that a dial goes by. */
export interface DialTurn {
	readonly place: number;
	readonly adjuster: Adjuster;
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
	/** Turns at the bench, of the oscillator and of the IF. */
	readonly turns: readonly DialTurn[];
	/** How many readings, acts and turns were kept. */
	readonly count: number;
	readonly checks: readonly KeptGeneratorCheck[];
	readonly trials: readonly KeptGeneratorTrial[];
	/** The latest gear of each band. */
	readonly gears: readonly DialGear[];
}

/** A run before its first reading of a dial. */
export const noDialWork: DialWork = { readings: [], acts: [], turns: [], count: 0, checks: [], trials: [], gears: [] };

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

/** The dial's part of a run after a turn at the bench; one that left its adjuster as it was says nothing, a second before the next mark is read no more than the first. */
export function afterTurn(
	work: DialWork,
	card: SetCard | null,
	turn: { readonly adjuster: string; readonly eighths: number | null },
): DialWork {
	const adjuster = card?.adjusters?.find(({ id }) => id === turn.adjuster);
	if (turn.eighths === 0 || (adjuster?.stage !== 'oscillator' && adjuster?.stage !== 'IF')) return work;
	const last = Math.max(work.readings.at(-1)?.place ?? -1, work.acts.at(-1)?.place ?? -1);
	if (work.turns.some((turn) => turn.adjuster.id === adjuster.id && turn.place > last)) return work;
	return { ...work, count: work.count + 1, turns: [...work.turns, { place: work.count, adjuster }] };
}

/** Turns at the bench that moved what comes in on a band's dial. */
export function turnsOn({ turns }: DialWork, band: string): readonly DialTurn[] {
	return turns.filter(({ adjuster: { bands } }) => bands?.includes(band) ?? true);
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

/** Where a band's passes end: behind an act that ends one, and at a turn at the bench once marks were read. Places, ascending. */
function passEnds(work: DialWork, band: string): readonly number[] {
	const readings = work.readings.filter(({ reading }) => reading.band === band);
	const acts = work.acts.filter(({ act }) => act.band === band && act.endsPass);
	const ends: number[] = [];
	for (const { place, isTurn } of [
		...acts.map(({ place }) => ({ place, isTurn: false })),
		...turnsOn(work, band).map(({ place }) => ({ place, isTurn: true })),
	].sort((one, other) => one.place - other.place)) {
		const last = ends.at(-1) ?? -1;
		if (!isTurn || readings.some((reading) => reading.place > last && reading.place < place)) ends.push(place);
	}
	return ends;
}

/** The pass that a band is in: as many as were ended. */
export function dialPass(work: DialWork, band: string): number {
	return passEnds(work, band).length;
}

/** Acts of a band's pass that is under way. */
export function passActs(work: DialWork, band: string): readonly KeptDialAct[] {
	const last = passEnds(work, band).at(-1) ?? -1;
	return work.acts.filter(({ act, place }) => act.band === band && place > last);
}

/** Turns at the bench since a band's marks were last read. */
export function turnsSince(work: DialWork, band: string): readonly DialTurn[] {
	const last = work.readings.findLast(({ reading }) => reading.band === band)?.place ?? Number.POSITIVE_INFINITY;
	return turnsOn(work, band).filter(({ place }) => place > last);
}
