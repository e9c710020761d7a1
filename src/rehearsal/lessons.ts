import type { BenchSet } from '#core/receiver/bench-set.ts';
import { factoryTurns } from '#core/receiver/factory.ts';
import { decimalWords } from '#record/quantity-words.ts';
import type { PracticeCase } from '#record/run.ts';
import { type Judgement, judged } from './judgement.ts';

/** What is looked at when a lesson is checked. */
export interface LessonWork {
	readonly set: BenchSet;
	/** Generator at the end, volts. */
	readonly levelV: number;
	/** What the person answered to the lesson's question. */
	readonly answer: string | null;
	/** Adjusters that were taken in hand, by their ids. */
	readonly tried: readonly string[];
}

/** Whether the task is done, with the figures that say so. */
export interface LessonVerdict {
	readonly isMet: boolean;
	readonly words: string;
}

/** A lesson: something explained, a virtual set that was put out of order, a task, and how it is checked. */
export interface Lesson {
	readonly id: string;
	readonly title: string;
	readonly explains: readonly string[];
	readonly task: string;
	readonly design: 'tm-517' | 'tm-523';
	/** Steps of the sheet that are worked. */
	readonly steps: readonly string[];
	/** Turns by which screws stand off the factory's settings. */
	readonly off: Readonly<Record<string, number>>;
	/** By name. */
	readonly faults: readonly string[];
	/** Screws that the task itself has turned by whole turns: no mistake here. */
	readonly wholeTurns?: readonly string[];
	/** Where the generator's attenuator stands at first, volts. */
	readonly levelV: number;
	readonly question?: { readonly words: string; readonly choices: readonly string[] };
	check(work: LessonWork): LessonVerdict;
}

const decibels = (valueDb: number): string => decimalWords(valueDb, 1);

/** A set that is so near to its best cannot be told from it by a screwdriver and a needle (chosen; as its maker left it it is half as far off). */
const nearDb = 1;
/** A worst place of the dial that a dial of this kind can do. */
const nearDialHz = 6e3;

/** What is said is what is judged: to a tenth. */
const tenths = (value: number): number => Math.round(10 * value);

/** Met when the set needs little more signal than at its best. */
function nearBest({ belowBestDb }: Judgement): LessonVerdict {
	if (belowBestDb === null) return { isMet: false, words: 'The set does not reach its standard output.' };
	const words = `The set is ${decibels(Math.max(belowBestDb, 0))} dB below the best that it can be; ${decibels(nearDb)} dB is near enough.`;
	return { isMet: tenths(belowBestDb) <= tenths(nearDb), words };
}

/** Met when stations come in near their marks. */
function dialTrue({ worstDialErrorHz }: Judgement): LessonVerdict {
	const words = `The worst place of the dial is ${decibels(worstDialErrorHz / 1e3)} kc off; ${nearDialHz / 1e3} kc is what a dial of this kind can do.`;
	return { isMet: tenths(worstDialErrorHz / 1e3) <= tenths(nearDialHz / 1e3), words };
}

/** Met when both are. */
const both = (one: LessonVerdict, other: LessonVerdict): LessonVerdict => ({
	isMet: one.isMet && other.isMet,
	words: `${one.words} ${other.words}`,
});

/** Met when a screw stands where the maker left it, within a part of a turn. */
function atHome({ design, turns }: BenchSet, ids: readonly string[], withinTurns: number): LessonVerdict {
	const home = factoryTurns(design);
	const offs = ids.map((id) => (turns[id] ?? 0) - (home[id] ?? 0));
	const worst = offs.reduce((most, off) => (Math.abs(off) > Math.abs(most) ? off : most), 0);
	const words = `The worst screw is ${decibels(worst * 8)} eighths of a turn from where it belongs; ${decibels(withinTurns * 8)} is near enough.`;
	return { isMet: tenths(8 * Math.abs(worst)) <= tenths(8 * withinTurns), words };
}

/** Screws of the IF that a question is to be answered from. */
const ifScrews = ['if1-primary', 'if1-secondary', 'if2-primary', 'if2-secondary'] as const;

/** Met when the question is answered rightly by someone who has tried every IF screw. */
function answered({ answer, tried }: LessonWork, right: string, why: string): LessonVerdict {
	const left = ifScrews.filter((id) => !tried.includes(id)).length;
	if (left > 0)
		return {
			isMet: false,
			words: `${left} of the ${ifScrews.length} IF screws ${left === 1 ? 'was' : 'were'} not tried yet.`,
		};
	if (answer === null) return { isMet: false, words: 'The question is still open.' };
	return answer === right
		? { isMet: true, words: `Right. ${why}` }
		: { isMet: false, words: 'Not that. Look again at what changed the reading and what did not.' };
}

/** The course, from easy to nasty. What the sets are and how far their screws are off is invented for it. */
export const lessons: readonly Lesson[] = [
	{
		id: 'one-peak',
		title: 'What the IF does',
		explains: [
			'Whatever the dial says, the converter moves the station to one fixed frequency, the IF. Two transformers tuned to it give most of the gain and all of the selectivity.',
			'One of their four screws stands off. Turned through its place it gives one clear peak.',
		],
		task: 'Bring T2 sec. back to its peak.',
		design: 'tm-517',
		steps: ['if'],
		off: { 'if2-secondary': 0.5 },
		faults: [],
		levelV: 1e-4,
		check: ({ set }) => nearBest(judged(set)),
	},
	{
		id: 'weak-signal',
		title: 'Why the signal is kept weak',
		explains: [
			'With a strong signal the AVC takes back what a better setting gives: the peak becomes flat, and a screw a whole eighth off reads the same.',
			'Turn the generator down until the tone is just read well; turn it down again each time the set has become better.',
		],
		task: 'Peak T2 pri. and T1 pri., and end with the generator at 300 uV or less at the converter.',
		design: 'tm-517',
		steps: ['if'],
		off: { 'if1-primary': 0.35, 'if2-primary': -0.3 },
		faults: [],
		levelV: 1e-3,
		check: ({ set, levelV }) => {
			const levelUv = Math.round(levelV * 1e6);
			const words = `The generator stands at ${levelUv} uV; 300 uV or less was asked for.`;
			return both(nearBest(judged(set)), { isMet: levelUv <= 300, words });
		},
	},
	{
		id: 'back-and-forth',
		title: 'Why the passes are repeated',
		explains: [
			'The two windings of a can pull on each other: when one is moved, the best place of the other moves too. So one goes from the last transformer to the first, and again, until a pass gains nothing that the meter can tell.',
		],
		task: 'All four screws are off. Work passes until the set is within a decibel of its best.',
		design: 'tm-517',
		steps: ['if'],
		off: { 'if1-primary': -0.4, 'if1-secondary': 0.45, 'if2-primary': 0.4, 'if2-secondary': -0.35 },
		faults: [],
		levelV: 1e-3,
		check: ({ set }) => nearBest(judged(set)),
	},
	{
		id: 'two-peaks',
		title: 'Why a core has two peaks',
		explains: [
			'An iron core adds most when it sits in the middle of its winding. Screwed right through, it meets each value twice: one peak with the core outside the middle, one beyond it.',
			'The maker means the outer one, away from the other winding: beyond the middle the cores come near to each other and the coupling is not what was drawn.',
			'The coach knows only what it has heard, and calls you back to the wrong peak. Here, and only here, go on: the tone falls away, and some turns further it grows again.',
		],
		task: 'T1 sec. was screwed through to the wrong peak. Bring it back, counter-clockwise by whole turns, to the outer one.',
		design: 'tm-523',
		steps: ['if'],
		off: { 'if1-secondary': 6 },
		wholeTurns: ['if1-secondary'],
		faults: [],
		levelV: 2e-4,
		check: ({ set }) => {
			const law = set.design.adjusters['if1-secondary'];
			const isMet = (set.turns['if1-secondary'] ?? 0) < (law?.travelTurns ?? 0) / 2;
			const words = `The core is ${isMet ? 'on its outer side' : 'still beyond the middle'}.`;
			return both(nearBest(judged(set)), { isMet, words });
		},
	},
	{
		id: 'wave-trap',
		title: 'The trap is set for least',
		explains: [
			'A ship or beacon that sends on the IF itself would come straight through. The trap in the antenna lead keeps it out: with the generator on the IF and in the antenna terminal, it is set for the least reading.',
			'Near the null the tone may be too weak to read: here, and only here, the generator is turned up, no more than the reading needs.',
		],
		task: 'Set the trap for least.',
		design: 'tm-517',
		steps: ['wave-trap'],
		off: { 'wave-trap': 0.6 },
		faults: [],
		levelV: 1e-3,
		check: ({ set }) => atHome(set, ['wave-trap'], 1 / 8),
	},
	{
		id: 'high-end',
		title: 'The high end: oscillator first',
		explains: [
			'With the pointer on 1400 the oscillator trimmer brings the station to its mark; then, and not before, the antenna trimmer is peaked. The antenna trimmer cannot move a station.',
			'The station comes in weakly at first: turn the generator down each time the reading has grown, or the peak becomes flat.',
		],
		task: 'Bring 1400 kc to its mark and peak the antenna trimmer.',
		design: 'tm-517',
		steps: ['broadcast-oscillator-high', 'broadcast-antenna-high'],
		off: { 'oscillator-trimmer': 0.3, 'antenna-trimmer': -0.35 },
		faults: [],
		levelV: 1e-2,
		check: ({ set }) => {
			const judgement = judged(set);
			return both(nearBest(judgement), dialTrue(judgement));
		},
	},
	{
		id: 'low-end',
		title: 'The low end, and back to the high',
		explains: [
			'At 600 the padder sets where the oscillator goes. It moves the high end a little too, so both ends are worked in turn until neither moves the other.',
		],
		task: 'Bring 600 and 1400 kc to their marks: high end, low end, and the high end again.',
		design: 'tm-517',
		steps: ['broadcast-oscillator-high', 'broadcast-antenna-high', 'broadcast-low'],
		off: { padder: -0.9 },
		faults: [],
		levelV: 3e-4,
		check: ({ set }) => dialTrue(judged(set)),
	},
	{
		id: 'way-home',
		title: 'The way home',
		explains: [
			'Turns that were counted can be taken back without any meter. The set came with a note: \u201cT1 pri. turned 3/8 clockwise, T2 sec. 2/8 counter-clockwise, to see whether it helps.\u201d',
		],
		task: 'T1 pri. was turned 3/8 clockwise, T2 sec. 2/8 counter-clockwise. Take both turns back by count alone.',
		design: 'tm-517',
		steps: ['if'],
		off: { 'if1-primary': 3 / 8, 'if2-secondary': -2 / 8 },
		faults: [],
		levelV: 3e-4,
		check: ({ set }) => atHome(set, ifScrews, 1 / 24),
	},
	{
		id: 'does-not-come-back',
		title: 'When alignment gives nothing back',
		explains: [
			'A set can be weak with every screw at its peak. Peaks that are sharp and in their places, and a loss that is the same everywhere, are not an alignment fault.',
		],
		task: 'See whether any IF screw gives the missing signal back. Then say what is wrong.',
		design: 'tm-517',
		steps: ['if'],
		off: {},
		faults: ['weak-if-tube'],
		levelV: 1e-4,
		question: {
			words: 'What is wrong?',
			choices: ['An IF winding is off its frequency', 'A winding is damped', 'A tube is weak'],
		},
		check: (work) =>
			answered(
				work,
				'A tube is weak',
				'Every peak is sharp and in its place, and the loss is the same everywhere: the IF tube gives too little.',
			),
	},
	{
		id: 'blunt-peak',
		title: 'A peak that is blunt',
		explains: [
			'A resistance across a winding, as from moisture, soot or a leaky mica, makes its peak low and wide. Turning its screw changes little on either side; the other windings peak as sharply as ever.',
			'The needle shows how far the reading falls. The coach calls you back as soon as it does: this once, go the whole eighth before you turn about.',
		],
		task: 'Turn each IF screw an eighth to either side, see how many decibels it falls, and bring it back. Then say which winding is damped.',
		design: 'tm-517',
		steps: ['if'],
		off: {},
		faults: ['winding-damped'],
		levelV: 1e-4,
		question: { words: 'Which winding is damped?', choices: ['T1 pri.', 'T1 sec.', 'T2 pri.', 'T2 sec.'] },
		check: (work) => answered(work, 'T2 pri.', 'Its peak is blunt: no screw gives back what the damping takes.'),
	},
];

/** The lesson that comes after another; `null` after the last. */
export function lessonAfter({ id }: Lesson): Lesson | null {
	return lessons[lessons.findIndex((lesson) => lesson.id === id) + 1] ?? null;
}

/** The lesson of a practice run; `null` when it is free practice. */
export function lessonOf({ lesson }: PracticeCase): Lesson | null {
	return lessons.find(({ id }) => id === lesson) ?? null;
}
