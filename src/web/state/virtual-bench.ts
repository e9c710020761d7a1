import * as z from 'zod/mini';
import type { RunState } from '#bench/run-state.ts';
import { designs } from '#core/receiver/designs/designs.ts';
import { VirtualSet } from '#instruments/virtual/virtual-set.ts';
import { untouched, type VirtualState } from '#instruments/virtual/virtual-state.ts';
import type { Lesson } from '#rehearsal/lessons.ts';
import { seedOf, setAsFound } from '#rehearsal/practice.ts';

const keyOf = (run: string): string => `virtual-set ${run}`;

const kept = z.object({
	turns: z.record(z.string(), z.number()),
	levelV: z.number(),
	volume: z.number(),
	clips: z.array(
		z.union([
			z.object({ adjuster: z.string(), ohm: z.number().check(z.positive()) }),
			z.object({ adjuster: z.string(), farad: z.number().check(z.positive()) }),
		]),
	),
	strains: z._default(
		z.record(z.string(), z.object({ times: z.number(), turns: z.number(), way: z.enum(['tight', 'loose']) })),
		{},
	),
	generator: z._default(
		z.union([
			z.object({ kind: z.literal('good') }),
			z.object({
				kind: z.literal('service'),
				seed: z.number(),
				onSinceMs: z.number(),
				platesHz: z.number().check(z.positive()),
			}),
		]),
		{ kind: 'good' },
	),
	isLeadOn: z._default(z.boolean(), true),
	stationHz: z._default(z.nullable(z.number().check(z.positive())), null),
});

/** Where hands left a run's virtual set in this browser; `null` when nothing usable is kept. */
function keptState(run: string): VirtualState | null {
	try {
		const read = kept.safeParse(JSON.parse(localStorage.getItem(keyOf(run)) ?? 'null'));
		return read.success ? read.data : null;
	} catch {
		return null;
	}
}

/** The lesson of a practice run, from the course, which is fetched for such a run alone; `null` for other work. */
export async function lessonFor({ practice }: RunState): Promise<Lesson | null> {
	if (practice?.lesson === undefined) return null;
	const { lessonOf } = await import('#rehearsal/lessons.ts');
	return lessonOf(practice);
}

/** The virtual set that a run is worked on, as hands left it; `null` when the card names none. */
export function virtualSetFor({ run, card, practice }: RunState, lesson: Lesson | null): VirtualSet | null {
	const design = designs[card?.virtualSet ?? ''];
	if (!design) return null;
	const found = setAsFound(design, run, practice && { practice, lesson });
	return new VirtualSet(found, seedOf(run), keptState(run) ?? untouched(lesson?.levelV));
}

/** Keeps where hands left a run's virtual set, over a reload of the page. */
export function keepVirtualSet(run: string, set: VirtualSet): void {
	localStorage.setItem(keyOf(run), JSON.stringify(set.state));
}
