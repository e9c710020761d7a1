import type { TestAnswer } from './ranking.ts';
import type { TestId } from './tests.ts';
import type { TroubleId } from './troubles.ts';

/** Where a finding leads, and why; the person may go on as well. */
export interface HandOver {
	/** The reading behind it. */
	readonly answer: TestAnswer;
	readonly why: string;
	/** What is gone to: a trouble, or the screen that puts it right. */
	readonly to: { readonly trouble: TroubleId } | { readonly screen: 'response' | 'dial' };
}

interface Way extends Omit<HandOver, 'answer'> {
	/** An alignment that is still going on puts it right by itself. */
	readonly isForAligned?: true;
}

const trouble = (id: TroubleId, why: string): Way => ({ why, to: { trouble: id } });
const aligned = (id: TroubleId, why: string): Way => ({ ...trouble(id, why), isForAligned: true });

const stopped = trouble('end-of-travel', 'An adjuster has its best at the end of its travel: something else is off.');
const dead = trouble('no-peak', 'An adjuster was turned and nothing changed.');
const stops = trouble('oscillator-dies', 'The oscillator stops on a part of the dial.');

/** Outcomes of tests that another screen or a trouble takes over. */
const ways: Partial<Record<TestId, Readonly<Record<string, Way>>>> = {
	'curve-fit': {
		refused: trouble('width', 'Tuned circuits do not make this curve: it is no matter of alignment alone.'),
		feedback: aligned('width', 'There is feedback through a tube: it leans the curve and may end in a squeal.'),
	},
	curve: {
		alike: aligned('two-peaks', 'The curve has two humps of equal height.'),
		lopsided: aligned('two-peaks', 'The curve leans, or has two unequal humps.'),
		narrow: trouble('width', 'The curve is narrower than such a set has: something may feed back.'),
		broad: aligned('width', 'The curve is broader than such a set has: something may load it.'),
	},
	'curve-level': { narrow: trouble('width', 'The curve grows narrow as gain rises: something feeds back.') },
	aim: { off: { why: 'The middle of the curve is off its aim.', to: { screen: 'response' }, isForAligned: true } },
	'six-db': { less: trouble('avc-masks', 'The signal was too strong: AVC hides the peak.') },
	'adjuster-end': {
		'if-tight': stopped,
		'if-loose': stopped,
		several: stopped,
		antenna: stopped,
		oscillator: stopped,
		padder: stopped,
	},
	'adjuster-dead': { one: dead, before: dead, none: dead },
	'turn-step': { jumps: trouble('trimmer-broken', 'The level jumps while an adjuster is turned.') },
	'dial-pattern': {
		kilocycles: {
			why: 'The dial is off by the same kilocycles everywhere: that is the IF. Set it first, then look at the dial again.',
			to: { screen: 'response' },
		},
		distance: {
			why: 'The dial is off by the same distance everywhere: that is the pointer.',
			to: { screen: 'dial' },
		},
		high: { why: 'The dial is off at its high end.', to: { screen: 'dial' }, isForAligned: true },
		low: { why: 'The dial is off at its low end.', to: { screen: 'dial' }, isForAligned: true },
		middle: trouble('dial-one-end', 'The dial is right at both ends and off between: no screw does that.'),
	},
	'three-points': {
		alike: aligned('weak', 'The set is weak alike along the dial.'),
		high: aligned('high-end-deaf', 'The set is weaker the higher.'),
		low: aligned('low-end-deaf', 'The set is weaker the lower.'),
		part: stops,
	},
	'oscillator-heard': {
		stops,
		nowhere: stops,
		below: trouble('image', 'The oscillator runs below the signal.'),
	},
	'image-heard': { there: trouble('image', 'The image is stronger than the signal.') },
	'strong-signal': { strained: trouble('strong-overloads', 'Strong signals overload the set.') },
	'avc-rest': { volts: trouble('squeal', 'The AVC line reads some volts without a signal: a stage may oscillate.') },
	silence: {
		hum: trouble('hum', 'Hum is heard without a signal.'),
		crackle: trouble('crackle', 'Crackle is heard without a signal.'),
		squeal: trouble('squeal', 'A squeal is heard without a signal.'),
		putting: trouble('putting', 'A slow putting is heard without a signal.'),
		tone: trouble('generator-leak', 'The generator is heard although it is turned down.'),
	},
};

/**
 * Where readings lead, one way for each trouble or screen, in the order of the readings.
 * @param stage whether the sheet's steps are all done: what alignment puts right by itself is no trouble before
 */
export function handOvers(answers: readonly TestAnswer[], stage: 'aligning' | 'aligned'): readonly HandOver[] {
	const found = answers.flatMap((answer): HandOver[] => {
		const way = ways[answer.test]?.[answer.outcome];
		if (!way || (stage === 'aligning' && way.isForAligned)) return [];
		return [{ answer, why: way.why, to: way.to }];
	});
	const place = ({ to }: HandOver): string => ('trouble' in to ? to.trouble : to.screen);
	return found.filter((one, at) => found.findIndex((other) => place(other) === place(one)) === at);
}
