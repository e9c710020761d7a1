/** What the card's fields are called, and an example of what is typed; by key, or by list and key where a word means something else there. */
const labels: Readonly<Record<string, readonly [string, string?]>> = {
	maker: ['Maker'],
	model: ['Model'],
	chassis: ['Chassis'],
	year: ['Year', '1938'],
	circuit: ['Circuit'],
	active: ['Tubes or transistors'],
	supply: ['Supply'],
	common: ['Common'],
	tuning: ['Tuned by'],
	converterGrid: ['Converter grid at'],
	ifCurve: ['IF curve as designed'],
	waveTrap: ['Wave trap'],
	antenna: ['Antenna'],
	avc: ['AVC'],
	detector: ['Detector'],
	fmDetector: ['FM detector'],
	outputPower: ['Output power', '1.5 W'],
	voiceCoil: ['Voice coil', '3.2 ohms'],
	notes: ['Notes'],
	'gang.sections': ['Gang, sections', '2'],
	'gang.capacitance': ['Gang, capacitance', '365 mmf'],
	'gang.cutPlates': ['Gang, oscillator plates cut'],
	frequency: ['Frequency', '455 kc'],
	use: ['For'],
	source: ['Where it stands', 'label in the cabinet'],
	'bands.name': ['Name', 'broadcast'],
	low: ['Low end', '540 kc'],
	high: ['High end', '1600 kc'],
	modulation: ['Modulation'],
	oscillator: ['Oscillator'],
	network: ['Oscillator trimmer across'],
	lowEnd: ['Low end set by'],
	alignAt: ['Aligned at', '1400 kc, 600 kc'],
	after: ['Aligned after'],
	'scales.band': ['Band'],
	shape: ['Shape'],
	travel: ['Travel of the pointer', '150 mm'],
	marks: ['Marks', '600 kc, 800 kc, 1000 kc'],
	places: ['Places of the marks, along the scale', '12 mm, 45 mm, 71 mm'],
	'tubes.stage': ['Stage', 'converter'],
	type: ['Type', '6A8'],
	'adjusters.name': ['Name on the chassis', 'C1'],
	stage: ['Stage'],
	transformer: ['Transformer, from the converter', '1'],
	winding: ['Winding'],
	end: ['End of the band'],
	bands: ['Bands'],
	kind: ['Kind'],
	where: ['Where'],
	clockwise: ['Clockwise capacitance'],
	highVoltage: ['High voltage on the screw'],
	condition: ['Condition'],
	x: ['Across the plan, from the left'],
	y: ['Down the plan, from the back'],
};

/** A choice of the card as the trade writes it. */
export const choiceWords = (choice: string): string => (choice === 'ac-dc' ? 'AC/DC' : choice);

/** What a field is called, and an example. */
export function labelOf(list: string, key: string): { readonly words: string; readonly example: string } {
	const [words, example] = labels[`${list}.${key}`] ?? labels[key] ?? [key];
	return { words, example: example ?? '' };
}

/** Adjuster fields that mean nothing at this stage. */
export function isAsked(key: string, stage: string | undefined): boolean {
	if (key === 'transformer') return stage === 'IF' || stage === 'RF';
	if (key === 'winding') return stage === 'IF' || stage === 'detector';
	if (key === 'use') return stage === 'IF' || stage === 'detector';
	if (key === 'end' || key === 'bands') return stage === 'oscillator' || stage === 'antenna' || stage === 'RF';
	return true;
}
