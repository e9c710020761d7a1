import { figuresById } from '../src/advice/tests/expected.ts';
import type { TestMarks } from '../src/advice/tests/marks.ts';
import type { Finding } from '../src/advice/tests/standard-test.ts';
import type { TestFigures } from '../src/core/receiver/test-figures.ts';

/** One figure against what the set's circuits say; `isWithin` is `null` where one of both could not be had. */
export interface ComparedFigure {
	readonly kind: string;
	readonly found: number | null;
	readonly wanted: number | null;
	readonly isWithin: boolean | null;
}

const kindOf = (id: string): string =>
	id.startsWith('width') ? `width at ${id.slice(6)} times` : (id.split(' ')[0] ?? id);

/** Findings beside the figures of the circuits, within two standard deviations or not. */
export function comparedFigures(
	findings: readonly Finding[],
	truth: TestFigures,
	marks: TestMarks,
): readonly ComparedFigure[] {
	return [...figuresById(truth, marks)].map(([id, wanted]) => {
		const found = findings.find((finding) => finding.id === id)?.value ?? null;
		const isWithin =
			found === null || wanted === null ? null : Math.abs(found.value - wanted) <= 2 * (found.uncertainty ?? 0);
		return { kind: kindOf(id), found: found?.value ?? null, wanted, isWithin };
	});
}
