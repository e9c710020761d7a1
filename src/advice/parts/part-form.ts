import type { PartName } from './part-request.ts';

/** One value that a form asks for. */
export interface PartField {
	/** Its name in the request. */
	readonly name: string;
	/** As the person reads it. */
	readonly words: string;
	/** How it may be written. */
	readonly example: string;
	/** Words to choose from, where it is not typed. */
	readonly choices?: readonly string[];
}

/** What is asked for one kind of answer about a part; what is left empty is taken as usual. */
export interface PartForm {
	readonly part: PartName;
	readonly words: string;
	/** Without these there is no answer. */
	readonly needed: readonly PartField[];
	readonly more: readonly PartField[];
	/** Words that go ahead of those without a name. */
	readonly ahead?: readonly string[];
	/** Fields whose values go without a name, in this order. */
	readonly nameless?: readonly string[];
}

const field = (name: string, words: string, example: string, choices?: readonly string[]): PartField => ({
	name,
	words,
	example,
	...(choices ? { choices } : {}),
});
const series = field('series', 'Series', 'E12', ['E6', 'E12', 'E24', 'E48', 'E96']);
const drawer = field('drawer', 'Only from my drawer', '47mmf, 100mmf, 270mmf');
const tolerance = field('tolerance', 'Tolerance of the part', '5%');
const intermediate = field('if', 'IF', '455kc');
const colours = [
	'none',
	'black',
	'brown',
	'red',
	'orange',
	'yellow',
	'green',
	'blue',
	'violet',
	'grey',
	'white',
	'gold',
	'silver',
];
const colour = (name: string, words: string, example: string): PartField => field(name, words, example, colours);
/** Colours of a moulded mica that make a value, upper row first. */
const dotExamples = ['white', 'brown', 'red', 'brown', 'silver', 'red'];
const dots = dotExamples.map((_, at) => `dot-${at + 1}`);

/** Every form, by its short name. */
export const partForms = {
	mica: {
		part: 'mica',
		words: 'Fixed capacitor of an IF winding',
		needed: [
			intermediate,
			field('inductance', 'Inductance of the winding', '1.1mH'),
			field('strays', 'Strays across it', '15mmf'),
			field('trimmer', 'Range of its trimmer', '5mmf-45mmf'),
		],
		more: [
			field('slug', 'Reach of its core instead of a trimmer', '15%'),
			tolerance,
			field('inductance-known', 'Inductance known to', '2%'),
			field('strays-known', 'Strays known to', '3mmf'),
			field('fit', 'Judge this capacitor', '47mmf'),
			series,
			drawer,
		],
	},
	padder: {
		part: 'padder',
		words: 'Padder of a band',
		needed: [field('band', 'Band', '540kc-1600kc'), intermediate, field('gang', 'Gang, one section', '365mmf')],
		more: [
			field('strays', 'Strays across the gang', '30mmf'),
			field('trimmer', 'Range of its screw', '60mmf-260mmf'),
			field('points', 'Tie points', '600kc,1000kc,1400kc'),
			field('network', 'Trimmer lies across the', 'gang', ['gang', 'coil']),
			tolerance,
			field('fit', 'Judge this capacitor', '390mmf'),
			series,
			drawer,
		],
	},
	pair: {
		part: 'pair',
		words: 'Which part or pair makes a value',
		needed: [field('wanted', 'Wanted value', '373mmf')],
		more: [series, drawer],
		nameless: ['wanted'],
	},
	'coil-shape': {
		part: 'coil',
		words: 'Inductance and turns of a coil by its shape',
		needed: [
			field('turns', 'Turns', '100'),
			field('diameter', 'Diameter, middle of the wire', '30mm'),
			field('length', 'Length of the winding', '40mm'),
		],
		more: [field('depth', 'Depth, if wound in layers', '5mm'), field('wanted', 'Wanted inductance', '240uH')],
	},
	'coil-resonances': {
		part: 'coil',
		words: 'Inductance and self-capacity by two resonances',
		needed: [field('resonances', 'Frequency and capacitor, twice', '2Mc@460mmf,4Mc@100mmf')],
		more: [field('capacitors', 'Capacitors known to', '1%')],
	},
	'coil-q': {
		part: 'coil',
		words: 'Q of a single circuit by its edges',
		needed: [field('edges', 'The two edges', '453kc-457kc'), field('below', 'Below the peak', '3dB')],
		more: [field('edges-known', 'Edges known to', '100c')],
	},
	'coil-damping': {
		part: 'coil',
		words: 'Resistor that makes a circuit as wide as wanted',
		needed: [
			field('width', 'Wanted width at 3 dB', '12kc'),
			field('q', 'Q now', '80'),
			field('inductance', 'Inductance', '1.1mH'),
			intermediate,
		],
		more: [],
	},
	attenuator: {
		part: 'attenuator',
		words: 'Attenuator behind a generator',
		needed: [field('loss', 'Loss', '20dB')],
		more: [
			field('impedance', 'Impedance', '50ohm'),
			field('shape', 'Shape', 'pi', ['pi', 'T']),
			field('series', 'Series', 'E24', ['E6', 'E12', 'E24', 'E48', 'E96']),
		],
	},
	dummy: {
		part: 'dummy',
		words: 'Dummy antenna',
		needed: [field('at', 'Frequency', '1000kc')],
		more: [],
	},
	avc: {
		part: 'avc',
		words: 'Time constant of an AVC line',
		needed: [field('resistance', 'Resistance', '1M'), field('capacitance', 'Capacitance', '0.1mfd')],
		more: [],
	},
	'resistor-code': {
		part: 'code',
		words: 'Resistor by body, end and dot',
		needed: [
			colour('body', 'Body', 'green'),
			colour('end', 'End', 'grey'),
			colour('dot', 'Dot', 'red'),
			colour('other-end', 'Other end', 'gold'),
		],
		more: [],
		ahead: ['resistor'],
		nameless: ['body', 'end', 'dot', 'other-end'],
	},
	'mica-code': {
		part: 'code',
		words: 'Moulded mica by six dots, arrows pointing right',
		needed: dots.map((name, at) =>
			colour(name, `${at < 3 ? 'Upper' : 'Lower'} row, dot ${(at % 3) + 1}`, dotExamples[at] ?? 'none'),
		),
		more: [],
		ahead: ['mica'],
		nameless: dots,
	},
	'lead-code': {
		part: 'code',
		words: 'Leads of a transformer',
		needed: [field('transformer', 'Transformer', 'IF', ['IF', 'output', 'power'])],
		more: [],
		ahead: ['leads'],
		nameless: ['transformer'],
	},
} as const satisfies Readonly<Record<string, PartForm>>;

/** A form by its short name. */
export type PartFormId = keyof typeof partForms;

/** The form by a word of an address; `null` when there is none. */
export function partFormOf(word: string): PartForm | null {
	return Object.hasOwn(partForms, word) ? partForms[word as PartFormId] : null;
}

/** The form that answers for a part; the first where it has several. */
export function formFor(part: PartName): PartFormId {
	const ids = Object.keys(partForms) as PartFormId[];
	return ids.find((id) => partForms[id].part === part) ?? 'pair';
}
