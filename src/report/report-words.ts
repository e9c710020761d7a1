import type { Estimate } from '#core/numeric/estimate.ts';

/** Every text of report and bench card, in one place, so that another language is one more catalogue. */
export const reportWords = {
	subtitle: 'Report',
	cardSubtitle: 'Bench card, to be kept inside the cabinet',
	footer: (set: string, day: string) => `${set} \u00b7 report \u00b7 ${day}`,
	cardFooter: (set: string, day: string) => `${set} \u00b7 bench card \u00b7 ${day}`,

	/** What a test is about, said to somebody who only listens. */
	plainly: {
		sensitivity: 'hearing weak stations',
		selectivity: 'keeping neighbouring stations apart',
		rejection: 'keeping out whistles and stations that do not belong there',
		AVC: 'the same loudness on strong and weak stations',
		output: 'how loud it plays before it sounds rough',
		distortion: 'a clean sound',
		'audio response': 'the balance of low and high tones',
		hum: 'quiet when no station plays',
	} as Readonly<Record<string, string>>,
	forTheOwner: 'For the owner',
	worked: (from: string, to: string) =>
		from === to ? `This radio was on the bench on ${from}.` : `This radio was on the bench from ${from} to ${to}.`,
	aligned: (adjusters: number) =>
		adjusters === 0
			? 'No adjuster was turned.'
			: `Its tuned circuits were aligned: ${adjusters} ${adjusters === 1 ? 'adjuster was' : 'adjusters were'} turned, and each turn is written down on the pages that follow.`,
	virtual: 'This is the program\u2019s virtual set: nothing of wood and wire was measured.',
	whatItDoes: 'What it does now',
	untested: 'No tests were read, so this report claims nothing about what the radio does.',
	testedOnce: (moment: 'before' | 'after') => `The tests were read only ${moment} the work: a change cannot be told.`,
	louder: (times: string) => `Stations about ${times} times weaker than before now come in as loud.`,
	deafer: (times: string) => `It needs about ${times} times more signal than before for the same loudness.`,
	sameLoud: 'How weak a station it can hear: no change that can be told.',
	gained: ({ value, uncertainty }: Estimate) =>
		`Measured: ${Math.abs(value).toFixed(0)} \u00b1 ${Math.max(1, 2 * (uncertainty ?? 0)).toFixed(0)} dB, the mean over the dial.`,
	dial: (within: string) => `Its dial is right within ${within}.`,
	better: (labels: string) => `Better than before: ${labels}.`,
	worse: (labels: string) => `Less good than before: ${labels}. The next pages say by how much.`,
	good: 'As good as this kind of radio can be expected to be:',
	short: 'Still short of what this kind of radio can be expected to do:',
	fromCircuits: 'What can be expected is computed from its own circuits.',
	fromCustom: 'What can be expected goes by common practice for such sets; no maker\u2019s figures were at hand.',
	chartWords: 'Signal needed at three places of the dial, before and after.',
	leftAlone: 'Left alone',
	leftAloneWhy: (name: string, condition: string) => `${name}: ${condition}; it was not forced.`,
	toMind: 'To mind',
	doneBy: 'Done by',

	nextRestorer: 'For the next restorer',
	adjusters: 'Adjusters',
	adjusterHeads: ['No.', 'Name', 'Stage', 'Turned in all', 'Gained', 'Care'],
	netTurn: (eighths: number | null) => {
		if (eighths === null) return 'not counted: pencil mark';
		if (eighths === 0) return 'as found';
		const whole = Math.floor(Math.abs(eighths) / 8);
		const rest = Math.abs(eighths) % 8;
		const amount = [whole === 0 ? '' : String(whole), rest === 0 ? '' : `${rest}/8`].filter(Boolean).join(' + ');
		return `${amount} ${eighths > 0 ? 'clockwise' : 'counter-clockwise'}`;
	},
	photographs: 'Photographs',
	turnLog: 'Turn by turn',
	turnHeads: ['Adjuster', 'Turn'],
	changed: 'Parts and values changed, and notes',
	nothingNoted: 'Nothing was noted.',
	tests: 'Standard tests',
	testHeads: ['Test', 'Before', 'After', 'Change', 'Stands'],
	standings: {
		'as good as can be expected': 'as expected',
		'a little short of it': 'a little short',
		'short of it': 'short',
		'outside the usual': 'outside the usual',
	},
	stands: 'Stands: against what this class of set can be expected to do.',
	noTests: 'None were read.',
	interval: '\u00b1 is two standard deviations: about nineteen in twenty.',
	otherGear: 'The gear before was not the gear after: its own faults count twice in every change.',
	avcWords: 'AVC: output against input',
	curve: 'IF curve and dial',
	curveWords: 'IF curve as read: points as it was left, grey line as it was found.',
	curveOnce: 'IF curve as read, once only.',
	ifFound: 'IF as found',
	ifLeft: 'IF as left',
	byCurve: (kilocycles: string) => `${kilocycles}, middle of the curve 6 dB down`,
	dialWords: (band: string) =>
		`Dial errors, ${band}: frequency received minus the mark; dashed as it was found, full as it was left.`,
	dialOnce: (band: string) => `Dial errors, ${band}: frequency received minus the mark, read once only.`,
	dialFound: 'found',
	dialLeft: 'left',
	dialUnit: 'kc off',
	gear: 'Instruments and how far they are trusted',
	gearHeads: ['What', 'Before', 'After'],
	gearRows: {
		generator: 'Generator',
		volts: 'its volts',
		attenuator: 'a ratio of its attenuator',
		meter: 'Output meter',
		reads: 'it reads',
		load: 'Load',
	},
	within: (limitDb: number) => `within ${limitDb} dB`,
	unknown: 'not known',
	procedures: 'How the tests were read',
	cautions: 'Cautions',
	raw: 'Raw readings of the tests',
	rawHeads: ['Reading', 'Before', 'After'],
	answers: 'Answers given on the bench',

	cardLead: 'Aligned, as left:',
	cardWarn: 'Read the cautions before the chassis is touched.',
} as const;
