import { analyseResponse } from '#advice/response/response-answer.ts';
import type { ResponseQuestion } from '#advice/response/response-question.ts';
import type { Nudge } from '#core/estimate/nudge-fit.ts';
import type { SweepPoint } from '#record/sweep.ts';
import { parseSweep } from '#record/sweep-file.ts';
import { type CommandInput, InputFault } from './command.ts';
import { readInput } from './input.ts';

/** Which of a Touchstone file's parameters is the curve. */
export type SweepParameter = 'S11' | 'S21' | undefined;

/** Points of a file; fewer than `fewest` are refused. */
export function sweepIn(path: string, parameter: SweepParameter, fewest: number): readonly SweepPoint[] {
	const text = readInput(path, 'the path of a table with frequency and level, or of a Touchstone file').toString(
		'utf8',
	);
	const parsed = parseSweep(text, path, parameter, fewest);
	if (!parsed.ok) throw new InputFault(`${path}: ${parsed.words}`);
	return parsed.value.points;
}

/** Fewest points of a whole curve, of a sweep after a nudge, and of what is read after a setting: its mark. */
const fewestOf = { proof: 5, nudge: 3, setting: 1 } as const;

/** `NAME=FILE`, the name in the person's own words. */
function namedFile(option: string, words: string): { name: string; path: string } {
	const split = words.indexOf('=');
	const name = words.slice(0, split).trim();
	const path = words.slice(split + 1).trim();
	if (split < 1 || name === '' || path === '')
		throw new InputFault(
			`--${option}: cannot read "${words}": give the adjuster's name and the file, such as --${option} T1=after-t1.csv`,
		);
	return { name, path };
}

/** How far the act that the sweeps before advise for an adjuster takes its circuit. */
function advisedMoveHz(name: string, words: string, before: ResponseQuestion): number {
	const { adjusters, advice } = analyseResponse(before).answer;
	const acts = advice.filter(({ adjuster }) => adjuster !== undefined);
	const moveHz = acts.find(({ adjuster }) => adjuster === name)?.moveHz;
	if (moveHz !== undefined) return moveHz;
	const reason =
		acts.length > 0
			? `the sweeps before it advise settings of ${acts.map(({ adjuster }) => adjuster).join(', ')}`
			: adjusters.length > 0
				? 'the sweeps before it advise no setting'
				: 'the sweeps before it name no adjuster: give --nudge sweeps of either can first';
	throw new InputFault(
		`--setting ${words}: ${reason}. A setting follows the advice; what was turned freely is a --nudge, and after a round of settings comes a --proof`,
	);
}

/** All that was turned and read since the base sweep, in the order given; what an adjuster was set for is the advice that the sweeps before it give. */
export function turnsIn(
	{ inOrder }: CommandInput,
	parameter: SweepParameter,
	question: ResponseQuestion,
): readonly Nudge[] {
	const turns: Nudge[] = [];
	for (const { name: option, value } of inOrder) {
		if (option === 'proof') turns.push({ name: null, points: sweepIn(value, parameter, fewestOf.proof) });
		if (option !== 'nudge' && option !== 'setting') continue;
		const { name, path } = namedFile(option, value);
		const points = sweepIn(path, parameter, fewestOf[option]);
		turns.push(
			option === 'nudge'
				? { name, points }
				: { name, points, aimedHz: advisedMoveHz(name, value, { ...question, nudges: turns }) },
		);
	}
	return turns;
}
