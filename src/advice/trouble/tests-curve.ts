import type { TroubleTest } from './trouble-test.ts';

const dead = 'Set unplugged, capacitors discharged and proved dead.';

/** Tests of the IF curve. */
export const curveTests = {
	curve: {
		words: 'Measure the IF curve, 20 kc each side. What shape has it?',
		how: 'Weak signal at the converter\u2019s grid or at the antenna with the dial at rest; a level every 2 kc will do. The page Response draws it.',
		takesS: 420,
		danger: 'none',
		outcomes: [
			{ id: 'one', words: 'One peak, as wide as such a set has' },
			{ id: 'broad', words: 'One broad or blunt peak' },
			{ id: 'narrow', words: 'One peak, tall and narrow' },
			{ id: 'alike', words: 'Two humps of equal height' },
			{ id: 'lopsided', words: 'Lopsided, or two unequal humps' },
		],
		otherwise: [0.88, 0.03, 0.03, 0.01, 0.05],
		rows: [
			{ causes: ['misaligned'], shares: [0.78, 0.05, 0.03, 0.02, 0.12] },
			{ causes: ['winding-damped'], shares: [0.4, 0.52, 0.01, 0.01, 0.06] },
			{ causes: ['mica-open', 'trimmer-shorted', 'winding-open'], shares: [0.3, 0.4, 0.05, 0.03, 0.22] },
			{ causes: ['mica-low', 'mica-high', 'core-broken'], shares: [0.35, 0.05, 0.12, 0.04, 0.44] },
			{ causes: ['shield-missing', 'bypass-open', 'leads-near'], shares: [0.2, 0.01, 0.5, 0.04, 0.25] },
			{ causes: ['over-coupled', 'coupling-changed'], shares: [0.05, 0.2, 0.01, 0.34, 0.4] },
		],
		basis: 'simulated set',
	},
	'curve-level': {
		words: 'Measure the width of the curve weak, then 40 dB stronger. Does it change?',
		how: 'AVC takes gain away at the stronger level: what feeds back then broadens.',
		takesS: 420,
		danger: 'none',
		outcomes: [
			{ id: 'same', words: 'It stays, or hardly changes' },
			{ id: 'narrow', words: 'Clearly narrower when weak' },
		],
		otherwise: [0.95, 0.05],
		rows: [{ causes: ['shield-missing', 'bypass-open', 'leads-near'], shares: [0.12, 0.88] }],
		basis: 'simulated set',
	},
	'curve-fit': {
		words: 'Do tuned circuits make the curve that was measured?',
		how: 'Read 25 points or more on the page Response, 25 kc each side. It fits the circuits and says when they do not make the curve.',
		takesS: 900,
		danger: 'none',
		outcomes: [
			{ id: 'fits', words: 'Yes, within what the readings scatter' },
			{ id: 'feedback', words: 'Only with feedback through a tube' },
			{ id: 'refused', words: 'No, the fit was refused' },
		],
		otherwise: [0.91, 0.03, 0.06],
		rows: [
			{ causes: ['shield-missing', 'bypass-open', 'leads-near'], shares: [0.3, 0.4, 0.3] },
			{ causes: ['too-strong'], shares: [0.43, 0.02, 0.55] },
			{ causes: ['generator-drift', 'generator-leaks', 'lead-unshielded'], shares: [0.48, 0.02, 0.5] },
			{ causes: ['silver-mica', 'noisy-tube', 'osc-joint', 'trimmer-cracked'], shares: [0.68, 0.02, 0.3] },
		],
		basis: 'physics of the circuit',
	},
	'damp-one': {
		words: 'Damp one winding of each can in turn and measure again. What is left of the two humps?',
		how: `${dead} Clip a resistor of 10 to 22 kilohms with a series capacitor rated 630 V or more across the winding; power up, hands off. The humps are of the can whose damping changes them.`,
		takesS: 480,
		danger: 'clipped',
		outcomes: [
			{ id: 'between', words: 'A single peak between them' },
			{ id: 'one', words: 'One of the two stays where it was' },
			{ id: 'none', words: 'There were no two humps' },
		],
		otherwise: [0.08, 0.12, 0.8],
		rows: [
			{ causes: ['over-coupled', 'coupling-changed'], shares: [0.85, 0.07, 0.08] },
			{ causes: ['misaligned', 'mica-low', 'mica-high'], shares: [0.1, 0.6, 0.3] },
		],
		basis: 'physics of the circuit',
	},
	'core-places': {
		words: 'See where the cores stand: outer or inner of their two places?',
		how: 'Count the turns outward to the next peak, an eighth at a time, and back; never inward in search of one.',
		takesS: 240,
		danger: 'none',
		outcomes: [
			{ id: 'outer', words: 'Outer place, or no cores' },
			{ id: 'inner', words: 'Inner place' },
		],
		otherwise: [0.93, 0.07],
		rows: [{ causes: ['coupling-changed'], shares: [0.4, 0.6] }],
		basis: 'common practice',
	},
	aim: {
		words: 'Where is the middle of the curve, against the IF that is aimed at?',
		how: 'With a generator that was checked against a station.',
		takesS: 120,
		danger: 'none',
		outcomes: [
			{ id: 'on', words: 'Within 2 kc' },
			{ id: 'off', words: 'Further off' },
		],
		otherwise: [0.85, 0.15],
		rows: [{ causes: ['if-moved', 'if-aim-wrong', 'other-if', 'generator-dial'], shares: [0.12, 0.88] }],
		basis: 'physics of the circuit',
	},
	'switch-turn': {
		words: 'Turn the selectivity switch. What moves?',
		how: 'Watch level and middle of the curve in each position.',
		takesS: 60,
		danger: 'none',
		outcomes: [
			{ id: 'middle', words: 'The middle of the curve moves' },
			{ id: 'width', words: 'The width alone' },
			{ id: 'absent', words: 'There is none' },
		],
		otherwise: [0.03, 0.07, 0.9],
		rows: [
			{ causes: ['switch-position'], shares: [0.6, 0.35, 0.05] },
			{ causes: ['over-coupled'], shares: [0.15, 0.35, 0.5] },
		],
		basis: 'common practice',
	},
} as const satisfies Readonly<Record<string, TroubleTest>>;
