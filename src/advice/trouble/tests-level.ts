import type { TroubleTest } from './trouble-test.ts';

const clip = 'Clip the lead with the set unplugged, discharged and proved dead; then power up, hands off.';

/** Tests that compare levels and voltages. */
export const levelTests = {
	'three-points': {
		words:
			'Find the generator level for the same output at the low end, in the middle and at the high end. Where is it weak?',
		how: 'Through the dummy antenna, against the sheet\u2019s own figures or what the set did when it was well; 6 dB more than that counts as weak.',
		takesS: 180,
		danger: 'none',
		outcomes: [
			{ id: 'expected', words: 'Nowhere' },
			{ id: 'alike', words: 'Everywhere alike' },
			{ id: 'high', words: 'Weaker the higher' },
			{ id: 'low', words: 'Weaker the lower' },
			{ id: 'part', words: 'Silent beyond one place' },
		],
		otherwise: [0.88, 0.05, 0.03, 0.03, 0.01],
		rows: [
			{ causes: ['misaligned'], shares: [0.85, 0.07, 0.05, 0.02, 0.01] },
			{
				causes: ['weak-converter', 'weak-if-tube', 'weak-output', 'low-b-plus'],
				shares: [0.1, 0.84, 0.03, 0.02, 0.01],
			},
			{
				causes: ['winding-damped', 'mica-low', 'mica-high', 'core-broken', 'coupling-changed'],
				shares: [0.17, 0.77, 0.03, 0.02, 0.01],
			},
			{ causes: ['mica-open', 'trimmer-shorted', 'winding-open'], shares: [0.02, 0.93, 0.02, 0.02, 0.01] },
			{ causes: ['antenna-coil-damped'], shares: [0.1, 0.7, 0.13, 0.06, 0.01] },
			{ causes: ['antenna-strays'], shares: [0.1, 0.15, 0.73, 0.01, 0.01] },
			{ causes: ['antenna-coil-open', 'loop-open', 'loop-off'], shares: [0.03, 0.55, 0.05, 0.36, 0.01] },
			{ causes: ['trap-off'], shares: [0.1, 0.05, 0.03, 0.81, 0.01] },
			{ causes: ['padder-changed', 'padder-set'], shares: [0.3, 0.1, 0.1, 0.49, 0.01] },
			{
				causes: ['osc-coil-changed', 'if-moved', 'osc-strays', 'osc-trimmer-off'],
				shares: [0.35, 0.2, 0.24, 0.2, 0.01],
			},
			{ causes: ['osc-tube-weak', 'osc-coil-damp', 'osc-joint', 'gang-short'], shares: [0.02, 0.03, 0.02, 0.03, 0.9] },
		],
		basis: 'simulated set',
	},
	'converter-grid': {
		words: 'Feed the IF into the converter\u2019s grid. Does it need more than it should?',
		how: `Through a capacitor of 0.01 to 0.1 mfd rated at least 630 V DC. ${clip} Against the sheet, or against a like set.`,
		takesS: 300,
		danger: 'clipped',
		outcomes: [
			{ id: 'expected', words: 'No, as it should' },
			{ id: 'weak', words: 'Yes, 6 dB or more' },
			{ id: 'dead', words: 'Hardly anything comes' },
		],
		otherwise: [0.93, 0.06, 0.01],
		rows: [
			{
				causes: ['weak-converter', 'weak-if-tube', 'weak-output', 'low-b-plus', 'winding-damped'],
				shares: [0.08, 0.89, 0.03],
			},
			{ causes: ['mica-low', 'mica-high', 'core-broken', 'coupling-changed'], shares: [0.2, 0.75, 0.05] },
			{ causes: ['mica-open', 'trimmer-shorted', 'winding-open'], shares: [0.02, 0.4, 0.58] },
		],
		basis: 'simulated set',
	},
	'if-grid': {
		words: 'Feed the IF into the last IF tube\u2019s grid. Does it need more than it should?',
		how: `Through a capacitor of 0.01 to 0.1 mfd rated at least 630 V DC. ${clip} The circuit at that grid cannot be set while the lead is there.`,
		takesS: 300,
		danger: 'clipped',
		outcomes: [
			{ id: 'expected', words: 'No, as it should' },
			{ id: 'weak', words: 'Yes, 6 dB or more' },
			{ id: 'dead', words: 'Hardly anything comes' },
		],
		otherwise: [0.94, 0.05, 0.01],
		rows: [
			{ causes: ['weak-if-tube', 'weak-output', 'low-b-plus'], shares: [0.08, 0.89, 0.03] },
			{
				causes: ['winding-damped', 'mica-low', 'mica-high', 'core-broken', 'coupling-changed'],
				shares: [0.52, 0.45, 0.03],
			},
			{ causes: ['mica-open', 'trimmer-shorted', 'winding-open'], shares: [0.49, 0.21, 0.3] },
		],
		basis: 'simulated set',
	},
	'audio-tone': {
		words: 'Feed a tone into the top of the volume control. Is the output as it should be?',
		how: `Through 0.1 mfd rated at least 630 V DC; some tens of millivolts are enough for ordinary loudness in most sets. ${clip}`,
		takesS: 300,
		danger: 'clipped',
		outcomes: [
			{ id: 'expected', words: 'Loud and clean' },
			{ id: 'weak', words: 'Weak' },
			{ id: 'strained', words: 'Strained or clipped' },
		],
		otherwise: [0.95, 0.03, 0.02],
		rows: [
			{ causes: ['weak-output'], shares: [0.06, 0.88, 0.06] },
			{ causes: ['low-b-plus'], shares: [0.1, 0.45, 0.45] },
			{ causes: ['coupling-capacitor'], shares: [0.1, 0.15, 0.75] },
		],
		basis: 'physics of the circuit',
	},
	'six-db': {
		words: 'Turn the generator up by 6 dB. How many decibels does the reading rise?',
		how: 'At the level at which you align.',
		takesS: 20,
		danger: 'none',
		typed: { quantity: 'level', asks: 'Rise of the reading', bounds: [4, 8] },
		outcomes: [
			{ id: 'less', words: 'Less than 4 dB' },
			{ id: 'follows', words: '4 to 8 dB' },
			{ id: 'more', words: 'More than 8 dB' },
		],
		otherwise: [0.3, 0.5, 0.2],
		rows: [
			{ causes: ['too-strong'], shares: [0.94, 0.05, 0.01] },
			{ causes: ['avc-leak'], shares: [0.08, 0.7, 0.22] },
			{ causes: ['avc-delayed'], shares: [0.15, 0.75, 0.1] },
		],
		basis: 'physics of the circuit',
	},
	'twenty-down': {
		words: 'Turn the generator down by 20 dB. Is there a peak now?',
		how: 'Turn the same adjuster an eighth each way, no more.',
		takesS: 60,
		danger: 'none',
		outcomes: [
			{ id: 'peak', words: 'Yes, a peak appears' },
			{ id: 'none', words: 'No, as before' },
		],
		otherwise: [0.06, 0.94],
		rows: [
			{ causes: ['too-strong'], shares: [0.93, 0.07] },
			{ causes: ['generator-leaks', 'lead-unshielded'], shares: [0.3, 0.7] },
			{ causes: ['avc-delayed'], shares: [0.2, 0.8] },
		],
		basis: 'physics of the circuit',
	},
	'avc-rest': {
		words: 'Read the AVC line without a signal.',
		how: `High-ohm meter, generator down to nothing. ${clip}`,
		takesS: 150,
		danger: 'clipped',
		typed: { quantity: 'voltage', asks: 'AVC volts, sign left out', bounds: [1.5] },
		outcomes: [
			{ id: 'nought', words: 'Near nought' },
			{ id: 'volts', words: 'Some volts' },
		],
		otherwise: [0.96, 0.04],
		rows: [
			{ causes: ['shield-missing', 'bypass-open', 'leads-near'], shares: [0.6, 0.4] },
			{ causes: ['converter-squeal'], shares: [0.5, 0.5] },
			{ causes: ['generator-leaks', 'outside-noise'], shares: [0.7, 0.3] },
		],
		basis: 'physics of the circuit',
	},
	'avc-share': {
		words: 'At a strong signal, read the detector\u2019s load and the AVC line. How do they compare?',
		how: `High-ohm meter, the same at both places. ${clip}`,
		takesS: 240,
		danger: 'clipped',
		outcomes: [
			{ id: 'nearly', words: 'Nearly the same' },
			{ id: 'less', words: 'AVC far less' },
			{ id: 'threshold', words: 'AVC nought until the signal is strong' },
		],
		otherwise: [0.93, 0.05, 0.02],
		rows: [
			{ causes: ['avc-leak'], shares: [0.05, 0.92, 0.03] },
			{ causes: ['avc-delayed'], shares: [0.05, 0.15, 0.8] },
		],
		basis: 'physics of the circuit',
	},
	'strong-signal': {
		words: 'Give a strong signal, a tenth of a volt. Does the sound strain?',
		how: 'Through the dummy antenna, volume low.',
		takesS: 30,
		danger: 'none',
		outcomes: [
			{ id: 'clean', words: 'It stays clean' },
			{ id: 'strained', words: 'It strains or chokes' },
		],
		otherwise: [0.88, 0.12],
		rows: [
			{ causes: ['avc-leak'], shares: [0.15, 0.85] },
			{ causes: ['coupling-capacitor', 'low-b-plus'], shares: [0.3, 0.7] },
		],
		basis: 'simulated set',
	},
	'b-plus': {
		words: 'Read B-plus and compare with the chart.',
		how: `Line voltage and ohms per volt of the chart\u2019s meter count too. ${clip}`,
		takesS: 150,
		danger: 'clipped',
		outcomes: [
			{ id: 'chart', words: 'Within a fifth of the chart' },
			{ id: 'low', words: 'Lower than that' },
		],
		otherwise: [0.95, 0.05],
		rows: [
			{ causes: ['low-b-plus'], shares: [0.06, 0.94] },
			{ causes: ['coupling-capacitor', 'filter-capacitor'], shares: [0.55, 0.45] },
		],
		basis: 'common practice',
	},
	'output-grid': {
		words: 'Read the grid of the output tube against its cathode.',
		how: `High-ohm meter. ${clip}`,
		takesS: 150,
		danger: 'clipped',
		outcomes: [
			{ id: 'negative', words: 'Nought or negative' },
			{ id: 'positive', words: 'Positive' },
		],
		otherwise: [0.97, 0.03],
		rows: [{ causes: ['coupling-capacitor'], shares: [0.05, 0.95] }],
		basis: 'common practice',
	},
} as const satisfies Readonly<Record<string, TroubleTest>>;
