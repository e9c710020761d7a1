import type { BenchSet } from '#core/receiver/bench-set.ts';
import type { SetDesign } from '#core/receiver/design.ts';
import { factoryTurns } from '#core/receiver/factory.ts';
import { signedWords, voltageWords } from '#record/quantity-words.ts';
import { type Judgement, judged } from './judgement.ts';
import { type Practised, setAsFound } from './practice.ts';

/** One figure of a set as it came and as it is left. */
interface TruthRow {
	readonly words: string;
	readonly before: string;
	readonly after: string;
}

/** The truth of a practised set, beside what hands made of it. */
export interface PracticeTruth {
	readonly rows: readonly TruthRow[];
	/** How far each screw is from where its maker set it. */
	readonly screws: readonly { readonly adjuster: string; readonly before: string; readonly after: string }[];
	readonly faultWords: string;
}

/** Figures of a set in words. */
function figures({ after, belowBestDb, worstDialErrorHz }: Judgement): readonly (readonly [string, string])[] {
	return [
		['below the best it can be', belowBestDb === null ? 'no output' : `${Math.max(belowBestDb, 0).toFixed(1)} dB`],
		...after.sensitivityV.map(
			({ dialHz, v }) =>
				[`needed at ${dialHz / 1e3} kc for 50 mW`, v === null ? 'more than 2 V' : voltageWords(v)] as const,
		),
		['IF width at 6 dB', after.ifWidth6Hz === null ? 'not had' : `${(after.ifWidth6Hz / 1e3).toFixed(1)} kc`],
		['IF, 5 kc above less 5 kc below', `${signedWords(after.asymmetryDb5kHz, 1)} dB`],
		['worst place of the dial', `${(worstDialErrorHz / 1e3).toFixed(1)} kc off`],
	];
}

/** The truth of a simulated set, as it came and as it stands now. */
export function practiceTruth(
	design: SetDesign,
	run: string,
	practised: Practised | null,
	now: BenchSet,
): PracticeTruth {
	const found = setAsFound(design, run, practised);
	const before = figures(judged(found));
	const after = figures(judged(now));
	const home = factoryTurns(design);
	const offHome = (turns: BenchSet['turns'], id: string): string =>
		`${signedWords(8 * ((turns[id] ?? 0) - (home[id] ?? 0)), 1)} eighths`;
	const kinds = found.faults.map(({ kind }) => kind);
	return {
		rows: before.map(([words, figure], k) => ({ words, before: figure, after: after[k]?.[1] ?? '' })),
		screws: Object.keys(design.adjusters).map((adjuster) => ({
			adjuster,
			before: offHome(found.turns, adjuster),
			after: offHome(now.turns, adjuster),
		})),
		faultWords: kinds.length === 0 ? 'It had no fault beside its screws.' : `Its fault: ${kinds.join(', ')}.`,
	};
}
