import { countedWords } from '#record/counted-words.ts';
import type { RunEntry } from '#record/run.ts';
import type { Adjuster } from '#record/set-card.ts';

/** Something done in practice that could have broken a real set, hurt somebody or lost the way back. */
export interface Mistake {
	/** What was done, and how often. */
	readonly words: string;
	/** What it could have come to. */
	readonly could: string;
}

/** How an adjuster of a virtual set was pressed on against its stop. */
interface Pressed {
	readonly times: number;
	readonly turns: number;
	readonly way: 'tight' | 'loose';
}

/** More than this in one go is rarely needed: one collector's guide, common practice otherwise. */
const mostEighths = 8;
/** A nudge for a curve is an eighth at most: the rule of the bench. */
const nudgeEighths = 1;
/** Nobody reads the cautions of a gate in less (chosen). */
const leastReadMs = 4000;

const often = (count: number): string => (count === 1 ? 'once' : count === 2 ? 'twice' : `${count} times`);

function pressedOn({ kind, name }: Pick<Adjuster, 'kind' | 'name'>, { times, turns, way }: Pressed): Mistake {
	const eighths = Math.max(1, Math.round(8 * turns));
	const far = `${countedWords(eighths, 'eighth')} in all`;
	const words = `${name} was turned on against its ${way} stop ${often(times)}, ${far}.`;
	if (kind === 'slug')
		return { words, could: 'There a core splits, or its thread strips. Stop at the first resistance.' };
	return way === 'tight'
		? { words, could: 'There the mica cracks, or the post shears. Stop at the first resistance.' }
		: { words, could: 'There the screw comes out of its thread and the plates spring apart.' };
}

/** Entries of turns with what followed. */
function turns(entries: readonly RunEntry[]) {
	return entries.flatMap(({ what }, at) =>
		what.kind === 'adjusted' ? [{ ...what, followed: entries[at + 1]?.what, at }] : [],
	);
}

/** Turns that went on after a step of 6 dB had said that the signal is too strong. */
function againstStep(entries: readonly RunEntry[]): number {
	let isTooStrong = false;
	let count = 0;
	for (const { what } of entries) {
		if (what.kind === '6 dB step') isTooStrong = what.verdict === 'too strong';
		if (what.kind === 'generator level') isTooStrong = false;
		if (what.kind === 'adjusted' && isTooStrong) count++;
	}
	return count;
}

/** Gates that were passed faster than their cautions can be read. */
function hurriedGates(entries: readonly RunEntry[]): number {
	return entries.filter(({ what, atMs }, at) => {
		const before = entries[at - 1];
		return what.kind === 'gate passed' && before !== undefined && atMs - before.atMs < leastReadMs;
	}).length;
}

/**
 * What was done in a practice run that could have broken something, the worst first.
 * @param pressed adjusters that were turned on against a stop
 * @param wholeTurns adjusters that the task itself asks to be turned by whole turns
 */
export function mistakesOf(
	entries: readonly RunEntry[],
	pressed: Readonly<Record<string, Pressed>>,
	adjusters: readonly Adjuster[],
	wholeTurns: readonly string[] = [],
): readonly Mistake[] {
	const all = turns(entries);
	const far = all.filter(
		({ adjuster, eighths }) => Math.abs(eighths ?? 0) > mostEighths && !wholeTurns.includes(adjuster),
	);
	const uncounted = all.filter(({ eighths }) => eighths === null);
	const nudges = all.filter(
		({ eighths, followed }) =>
			followed?.kind === 'sweep begun' && followed.role === 'nudge' && Math.abs(eighths ?? 0) > nudgeEighths,
	);
	const hurried = hurriedGates(entries);
	const strong = againstStep(entries);
	const counted = (count: number, words: string, could: string): readonly Mistake[] =>
		count === 0 ? [] : [{ words, could }];
	return [
		...counted(
			hurried,
			`Cautions were confirmed within ${leastReadMs / 1e3} seconds ${often(hurried)}: they were passed over.`,
			'On a real set they are what keeps a hand off a charged capacitor and an earthed lead off a live chassis.',
		),
		...Object.entries(pressed).map(([id, own]) =>
			pressedOn(adjusters.find((one) => one.id === id) ?? { kind: 'other', name: id }, own),
		),
		...counted(
			far.length,
			`An adjuster was turned by more than a full turn ${often(far.length)}.`,
			'So much is rarely needed: the peak lies nearer, or the fault is elsewhere.',
		),
		...counted(
			nudges.length,
			`A nudge for a curve was more than an eighth of a turn ${often(nudges.length)}.`,
			'An eighth tells as much; more may leave the peak, or meet a stop.',
		),
		...counted(
			uncounted.length,
			`A turn was not counted ${often(uncounted.length)}.`,
			'The way home is lost for that adjuster, but for its pencil mark.',
		),
		...counted(
			strong,
			`An adjuster was turned ${often(strong)} although the 6 dB step had said that the signal is too strong.`,
			'AVC then hides the peak: what was peaked so may stand off.',
		),
	];
}
