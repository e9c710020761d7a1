import type { DialCheck } from '#core/estimate/generator-dial.ts';
import { InputFault } from './command.ts';
import { columnsIn } from './table-columns.ts';

/**
 * Checks of a generator's dial in a file with the header: dial kc,true kc. They are taken for made today.
 * @param settingHz how well its dial was set, no less than the last digit of what it is
 */
export function generatorChecksIn(path: string, settingHz: number): readonly DialCheck[] {
	const [marks, truth] = columnsIn(path, [
		{ word: 'dial', kinds: ['frequency'], example: 'dial kc' },
		{ word: 'true', kinds: ['frequency'], example: 'true kc' },
	]);
	if (!marks || !truth || marks.values.length === 0) {
		throw new InputFault(`${path}: no checks: give at least one line under the header`);
	}
	return marks.values.map((dialHz, k) => ({
		dialHz,
		trueHz: truth.values[k] as number,
		uncertaintyHz: Math.max(truth.digitUncertainties[k] as number, settingHz),
		ageS: 0,
	}));
}
