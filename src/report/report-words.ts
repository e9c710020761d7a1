import type { Estimate } from '#core/numeric/estimate.ts';
import type { Language } from '#record/language.ts';
import { decimalWords, signedWords } from '#record/quantity-words.ts';

/** The texts of report and bench card. */
export const reportWords = ({ say }: Language) => ({
	subtitle: say`Report`,
	cardSubtitle: say`Bench card`,
	footer: (set: string, day: string) => say`${set} \u00b7 report \u00b7 ${day}`,
	cardFooter: (set: string, day: string) => say`${set} \u00b7 bench card \u00b7 ${day}`,

	/** What a test is about, said to somebody who only listens. */
	plainly: {
		sensitivity: say`hearing weak stations`,
		selectivity: say`keeping neighbouring stations apart`,
		rejection: say`keeping out whistles and stations that do not belong there`,
		AVC: say`the same loudness on strong and weak stations`,
		output: say`how loud it plays before it sounds rough`,
		distortion: say`a clean sound`,
		'audio response': say`the balance of low and high tones`,
		hum: say`quiet when no station plays`,
	} as Readonly<Record<string, string>>,
	forTheOwner: say`For the owner`,
	worked: (from: string, to: string) =>
		from === to
			? say`This radio was on the bench on ${from}.`
			: say`This radio was on the bench from ${from} to ${to}.`,
	aligned: (adjusters: number) =>
		adjusters === 0
			? say`No adjuster was turned.`
			: adjusters === 1
				? say`Its tuned circuits were aligned: one adjuster was turned, and each turn is written down on the pages that follow.`
				: say`Its tuned circuits were aligned: ${adjusters} adjusters were turned, and each turn is written down on the pages that follow.`,
	virtual: say`This is the program\u2019s virtual set: nothing of wood and wire was measured.`,
	whatItDoes: say`What it does now`,
	untested: say`No tests were read, so this report claims nothing about what the radio does.`,
	testedOnce: (moment: 'before' | 'after') =>
		moment === 'before'
			? say`The tests were read only before the work: a change cannot be told.`
			: say`The tests were read only after the work: a change cannot be told.`,
	louder: (times: string) => say`Stations about ${times} times weaker than before now come in as loud.`,
	deafer: (times: string) => say`It needs about ${times} times more signal than before for the same loudness.`,
	sameLoud: say`How weak a station it can hear: no change that can be told.`,
	gained: ({ value, uncertainty }: Estimate) =>
		say`Measured: ${Math.abs(value).toFixed(0)} \u00b1 ${Math.max(1, 2 * (uncertainty ?? 0)).toFixed(0)} dB, the mean over the dial.`,
	dial: (within: string) => say`Its dial is right within ${within}.`,
	better: (labels: string) => say`Better than before: ${labels}.`,
	worse: (labels: string) => say`Less good than before: ${labels}. The next pages say by how much.`,
	good: say`As good as this kind of radio can be expected to be:`,
	short: say`Still short of what this kind of radio can be expected to do:`,
	fromCircuits: say`What can be expected is computed from its own circuits.`,
	fromCustom: say`What can be expected goes by common practice for such sets; no maker\u2019s figures were at hand.`,
	chartWords: say`Signal needed at three places of the dial, before and after.`,
	leftAlone: say`Left alone`,
	set: say`Set`,
	careOnScrew: say`B-plus on the screw`,
	decibels: (gainDb: number) => say`${decimalWords(gainDb, 1)} dB`,
	leftAloneWhy: (name: string, condition: string) => say`${name}: ${condition}; it was not forced.`,
	toMind: say`To mind`,
	doneBy: say`Done by`,

	nextRestorer: say`For the next restorer`,
	adjusters: say`Adjusters`,
	adjusterHeads: [say`No.`, say`Name`, say`Stage`, say`Turned in all`, say`Gained`, say`Turn by turn`, say`Care`],
	netTurn: (eighths: number | null) => {
		if (eighths === null) return say`not counted: pencil mark`;
		if (eighths === 0) return say`as found`;
		const whole = Math.floor(Math.abs(eighths) / 8);
		const rest = Math.abs(eighths) % 8;
		const amount = [whole === 0 ? '' : String(whole), rest === 0 ? '' : `${rest}/8`].filter(Boolean).join(' + ');
		return eighths > 0 ? say`${amount} clockwise` : say`${amount} counter-clockwise`;
	},
	photographs: say`Photographs`,
	photosLeft: (count: number) =>
		count === 1
			? say`One more photograph is kept with the set.`
			: say`${count} more photographs are kept with the set.`,
	/** Adjusters that nobody turned. */
	leftAsFound: (names: string) => say`As found: ${names}.`,
	bands: say`Bands`,
	bandEnds: (band: string, low: string, high: string) => say`${band} ${low} to ${high}`,
	turnSigns: say`Turn by turn: + clockwise, \u2212 counter-clockwise, in the order of the work, with decibels gained where they were read.`,
	turnGained: (turned: string, gainDb: string) => say`${turned} (${gainDb} dB)`,
	changed: say`Parts and values changed, and notes`,
	nothingNoted: say`Nothing was noted.`,
	tests: say`Standard tests`,
	testHeads: [say`Test`, say`Before`, say`After`, say`Change`, say`Stands`] as const,
	standings: {
		'as good as can be expected': say`as expected`,
		'a little short of it': say`a little short`,
		'short of it': say`short`,
		'outside the usual': say`outside the usual`,
	},
	stands: say`Stands: against what this class of set can be expected to do.`,
	noTests: say`None were read.`,
	interval: say`\u00b1 is two standard deviations: about nineteen in twenty.`,
	otherGear: say`The gear before was not the gear after: its own faults count twice in every change.`,
	avcWords: say`AVC: output against input`,
	curve: say`Curves`,
	curveWords: say`IF curve as read: points as it was left, grey line as it was found.`,
	curveOnce: say`IF curve as read, once only.`,
	fromFile: (name: string, day: string) => say`Points from ${name}, taken in on ${day}.`,
	ifFound: say`IF as found`,
	ifLeft: say`IF as left`,
	sensitivity: say`Sensitivity`,
	figureAt: (figure: string, place: string) => say`${figure} at ${place}`,
	byCurve: (kilocycles: string) => say`${kilocycles}, middle of the curve 6 dB down`,
	dialWords: (band: string) =>
		say`Dial errors, ${band}: frequency received minus the mark; dashed as it was found, full as it was left.`,
	dialOnce: (band: string) => say`Dial errors, ${band}: frequency received minus the mark, read once only.`,
	dialFound: say`found`,
	dialLeft: say`left`,
	dialUnit: say`kc off`,
	gear: say`Instruments and how far they are trusted`,
	bothTimes: say`Before and after`,
	gearTold: ({ generator, volts, attenuator, meter, reads, load }: Readonly<Record<string, string>>) =>
		say`generator: ${generator ?? ''}; its volts ${volts ?? ''}, a ratio of its attenuator ${attenuator ?? ''}. Output meter: ${meter ?? ''}; it reads ${reads ?? ''}. Load: ${load ?? ''}.`,
	corrected: (day: string) => say`Its levels are corrected by its own table, read on ${day}.`,
	within: (limitDb: number) => say`within ${limitDb} dB`,
	unknown: say`not known`,
	procedures: say`What the tests follow`,
	raw: say`Raw readings of the tests, as they were typed`,
	rawHeads: [say`Reading`, say`Before`, say`After`],
	answers: say`Answers given on the bench`,

	cardLead: say`Aligned, as left:`,
	cardSigns: say`Plus is clockwise, 0 as found.`,
	cardWarn: say`To be kept inside the cabinet. Read the cautions before the chassis is touched.`,
});

/** A turn in eighths, clockwise with a plus; `null` was not counted. */
export const signedTurn = (eighths: number | null, { say }: Language): string =>
	eighths === null ? say`not counted` : `${signedWords(eighths, 0)}${eighths === 0 ? '' : '/8'}`;
