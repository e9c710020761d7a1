import type { BenchSet } from '#core/receiver/bench-set.ts';
import type { SetDesign } from '#core/receiver/design.ts';
import { factoryTurns } from '#core/receiver/factory.ts';
import { type Fault, faultNamed } from '#core/receiver/faults.ts';
import { tamperedSet } from '#core/receiver/truth.ts';
import type { PracticeCase } from '#record/run.ts';
import { shownWords } from '#record/shown-words.ts';
import type { Lesson } from './lessons.ts';

/** A number from a run's name, so that each run has its own tampering and a reload has the same. */
export function seedOf(run: string): number {
	let seed = 7;
	for (const letter of run) seed = (seed * 31 + letter.charCodeAt(0)) % 1_000_003;
	return seed;
}

/** A run of practice that was kept by a program that has more of it: another set must not stand in for its own. */
const notKnown = (what: string, name: string): Error =>
	new Error(
		`This practice has the ${what} "${shownWords(name)}", which this version of Peakwright does not know: go on with it in the version that it was begun in, or begin another.`,
	);

const faultsNamed = (names: readonly string[]): readonly Fault[] =>
	names.map((name) => {
		const fault = faultNamed(name);
		if (fault === null) throw notKnown('fault', name);
		return fault;
	});

/** A case of practice, with its lesson where it is one of the course. */
export interface Practised {
	readonly practice: PracticeCase;
	readonly lesson: Pick<Lesson, 'off' | 'faults'> | null;
}

/**
 * The virtual set of a run as it came to the bench: a lesson's own, a case of practice, or tampered by the run's name.
 * @throws Error, in words for the person, where its practice has a fault or a lesson that is not known
 */
export function setAsFound(design: SetDesign, run: string, practised: Practised | null): BenchSet {
	if (practised === null) return tamperedSet(design, seedOf(run));
	const { practice, lesson } = practised;
	if (!lesson && practice.lesson !== undefined) throw notKnown('lesson', practice.lesson);
	if (!lesson) return tamperedSet(design, practice.seed, faultsNamed(practice.faults));
	const turns = { ...factoryTurns(design) };
	for (const [id, off] of Object.entries(lesson.off)) {
		const travel = design.adjusters[id]?.travelTurns ?? 0;
		turns[id] = Math.min(Math.max((turns[id] ?? 0) + off, 0), travel);
	}
	return { design, faults: faultsNamed(lesson.faults), turns, pointerSlipM: 0 };
}
