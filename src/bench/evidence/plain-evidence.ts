import type { TestId } from '#advice/trouble/tests.ts';
import type { Happening, RunEntry } from '#record/run.ts';
import type { Adjuster } from '#record/set-card.ts';
import { setFacts } from '#record/set-facts.ts';
import type { FoundAnswer } from './found-answer.ts';
import { ofListening } from './of-listening.ts';
import { ofTriage } from './of-triage.ts';
import { ofTurns } from './of-turns.ts';

const stepOutcome = { linear: 'follows', 'too strong': 'less', 'more than 6 dB': 'more' } as const;

/** What single entries say, in their order. */
function said({ what }: RunEntry): readonly FoundAnswer[] {
	switch (what.kind) {
		case 'step done':
			return ofTriage(what);
		case 'heard':
			return ofListening(what);
		case '6 dB step': {
			const { verdict, stepDb } = what;
			if (!Object.hasOwn(stepOutcome, verdict)) return [];
			const outcome = stepOutcome[verdict as keyof typeof stepOutcome];
			return [{ test: 'six-db', outcome, words: `${stepDb.value.toFixed(1)} dB`, foundIn: 'adjusters' }];
		}
		case 'test answered': {
			// As it was kept: whoever ranks passes over a test that this version does not know.
			const { test, outcome, words } = what;
			return [{ test: test as TestId, outcome, ...(words === undefined ? {} : { words }), foundIn: 'troubles' }];
		}
		default:
			return [];
	}
}

/** The entries of a run that were not struck. */
export function countingEntries(entries: readonly RunEntry[]): readonly RunEntry[] {
	const struck = new Set(entries.map(({ what }) => (what.kind === 'struck' ? what.entry : null)));
	return entries.filter(({ id }) => !struck.has(id));
}

/**
 * What turns and single entries say.
 * @param missing what an adjuster at its stop lacks, in words; `null` where no curve tells
 */
export function ofEntries(
	counting: readonly RunEntry[],
	adjusters: readonly Adjuster[],
	missing: (adjuster: Adjuster) => string | null,
): readonly FoundAnswer[] {
	return [...ofTurns(counting, adjusters, missing), ...counting.flatMap(said)];
}

/** Happenings that say something only when they are fitted together: points of a curve, of a dial, of a standard test. */
const fitted: ReadonlySet<Happening['kind']> = new Set([
	'sweep point',
	'sweep file',
	'swept reading',
	'dial reading',
	'test reading',
]);

/** What a run says without a fit, which is all it says while no curve, dial or standard test was read; `null` when one was. */
export function plainEvidence(entries: readonly RunEntry[]): readonly FoundAnswer[] | null {
	const counting = countingEntries(entries);
	if (counting.some(({ what }) => fitted.has(what.kind))) return null;
	const started = counting.find(({ what }) => what.kind === 'started')?.what;
	const facts = started?.kind === 'started' ? setFacts(started.card) : null;
	return ofEntries(counting, facts?.ok ? facts.value.adjusters : [], () => null);
}
