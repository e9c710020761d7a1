import type { BenchSet } from '#core/receiver/bench-set.ts';
import type { SetDesign } from '#core/receiver/design.ts';
import { factoryTurns } from '#core/receiver/factory.ts';
import { type Fault, namedFaults } from '#core/receiver/faults.ts';
import { tamperedSet } from '#core/receiver/truth.ts';
import type { PracticeCase } from '#record/run.ts';
import type { Lesson } from './lessons.ts';

/** A number from a run's name, so that each run has its own tampering and a reload has the same. */
export function seedOf(run: string): number {
	let seed = 7;
	for (const letter of run) seed = (seed * 31 + letter.charCodeAt(0)) % 1_000_003;
	return seed;
}

const faultsNamed = (names: readonly string[]): readonly Fault[] =>
	names.flatMap((name) => {
		const fault = namedFaults[name];
		return fault ? [fault] : [];
	});

/** A case of practice, with its lesson where it is one of the course. */
export interface Practised {
	readonly practice: PracticeCase;
	readonly lesson: Pick<Lesson, 'off' | 'faults'> | null;
}

/** The virtual set of a run as it came to the bench: a lesson's own, a case of practice, or tampered by the run's name. */
export function setAsFound(design: SetDesign, run: string, practised: Practised | null): BenchSet {
	if (practised === null) return tamperedSet(design, seedOf(run));
	const { practice, lesson } = practised;
	if (!lesson) return tamperedSet(design, practice.seed, faultsNamed(practice.faults));
	const turns = { ...factoryTurns(design) };
	for (const [id, off] of Object.entries(lesson.off)) {
		const travel = design.adjusters[id]?.travelTurns ?? 0;
		turns[id] = Math.min(Math.max((turns[id] ?? 0) + off, 0), travel);
	}
	return { design, faults: faultsNamed(lesson.faults), turns, pointerSlipM: 0 };
}
