import type { SheetStep } from '#advice/sheet-step.ts';
import type { Lesson } from './lessons.ts';

/**
 * The steps of a sheet that a lesson works, counted from one, each with the adjusters that the lesson put out of order; with all of them where it is
 * not told which, or another has to follow.
 */
export function lessonSteps(lesson: Lesson, steps: readonly SheetStep[]): readonly SheetStep[] {
	return steps
		.filter(({ id }) => lesson.steps.includes(id))
		.map((step, index) => {
			const off = step.adjusters.filter((id) => id in lesson.off);
			return { ...step, number: index + 1, adjusters: off.length > 0 ? off : step.adjusters };
		});
}
