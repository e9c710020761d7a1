/** Old colour codes of parts, as the trade's associations laid them down: only what texts agree on is read. */
const digits = ['black', 'brown', 'red', 'orange', 'yellow', 'green', 'blue', 'violet', 'grey', 'white'] as const;

/** A colour of the codes. */
export type Colour = (typeof digits)[number] | 'gold' | 'silver' | 'none';

const alike: Readonly<Record<string, Colour>> = { gray: 'grey', purple: 'violet', slate: 'grey' };

/**
 * The colour that a word names; `null` when it names none of the codes.
 * @example colourOf('Gray') // => 'grey'
 */
export function colourOf(word: string): Colour | null {
	const plain = word.trim().toLowerCase();
	const named = alike[plain] ?? plain;
	return [...digits, 'gold', 'silver', 'none'].includes(named) ? (named as Colour) : null;
}

/** A value read from a code. */
export interface CodedValue {
	/** Ohms or farads. */
	readonly value: number;
	/** `null` where texts do not agree on the colour. */
	readonly toleranceShare: number | null;
	/** What else the code says. */
	readonly notes: readonly string[];
}

const digit = (colour: Colour): number | null => {
	const place = digits.indexOf(colour as (typeof digits)[number]);
	return place < 0 ? null : place;
};

function codedValue(first: Colour, second: Colour, zeros: Colour): number | null {
	const tens = digit(first);
	const ones = digit(second);
	const power = zeros === 'gold' ? -1 : zeros === 'silver' ? -2 : digit(zeros);
	return tens === null || ones === null || power === null ? null : (10 * tens + ones) * 10 ** power;
}

// [rma-resistors], seen on two pages: gold 5 %, silver 10 %, no colour 20 %.
const resistorTolerance: Partial<Record<Colour, number>> = { gold: 0.05, silver: 0.1, none: 0.2 };

/**
 * A resistor marked by body, end and dot, [rma-resistors]: figures of body and end, noughts of the dot; the other end is its tolerance.
 * @returns `null` when the colours make no value
 * @example bodyEndDot('green', 'grey', 'red', 'none') // => { value: 5800, toleranceShare: 0.2, notes: [] }
 */
export function bodyEndDot(body: Colour, end: Colour, dot: Colour, otherEnd: Colour): CodedValue | null {
	// Common practice: a dot that is not to be seen has the colour of the body.
	const value = codedValue(body, end, dot === 'none' ? body : dot);
	const toleranceShare = resistorTolerance[otherEnd];
	if (value === null || value === 0 || toleranceShare === undefined) return null;
	return { value, toleranceShare, notes: dot === 'none' ? ['No dot seen: taken for the colour of the body.'] : [] };
}

// Agreed by [mica-dots] and common tables: the figure's colour is its per cent, gold 5, silver 10, none or black 20. Yellow, blue, violet, grey and white differ from text to text.
const micaTolerance: Partial<Record<Colour, number>> = {
	brown: 0.01,
	red: 0.02,
	orange: 0.03,
	green: 0.05,
	gold: 0.05,
	silver: 0.1,
	black: 0.2,
	none: 0.2,
};

/** A mica capacitor of three dots, [mica-dots]: two figures and noughts, micro-microfarads, 500 V and 20 %. */
export function micaThreeDots(first: Colour, second: Colour, zeros: Colour): CodedValue | null {
	const value = codedValue(first, second, zeros);
	return value === null || value === 0 ? null : { value: value * 1e-12, toleranceShare: 0.2, notes: ['500 V DC'] };
}

const micaTypes: Partial<Record<Colour, string>> = {
	white: 'mica, RMA marking',
	black: 'mica, military marking',
	silver: 'paper, not mica',
};
// [retma-rec-115a]: classes seen; colours of B to E seen in a public table, black for A from memory.
const micaClasses: Partial<Record<Colour, string>> = {
	black: 'class A, \u00b11,000 ppm a degree',
	brown: 'class B, \u00b1500 ppm a degree',
	red: 'class C, \u00b1200 ppm a degree',
	orange: 'class D, \u00b1100 ppm a degree',
	yellow: 'class E, \u221220 to +100 ppm a degree',
};

/**
 * A mica capacitor of six dots, arrows to the right, [mica-dots]: above type and two figures, below class, tolerance and noughts.
 * @param above type, first and second figure, left to right
 * @param below class, tolerance, noughts, left to right
 */
export function micaSixDots(
	above: readonly [Colour, Colour, Colour],
	below: readonly [Colour, Colour, Colour],
): CodedValue | null {
	const type = micaTypes[above[0]];
	const value = codedValue(above[1], above[2], below[2]);
	if (type === undefined || value === null || value === 0) return null;
	const toleranceShare = micaTolerance[below[1]] ?? null;
	return {
		value: value * 1e-12,
		toleranceShare,
		notes: [
			type,
			micaClasses[below[0]] ?? 'class not known from this colour',
			...(toleranceShare === null ? [`texts disagree on a tolerance dot that is ${below[1]}: measure the part`] : []),
		],
	};
}

/** Kinds of transformer whose leads have a code. */
export type LeadKind = 'IF' | 'output' | 'power';

// [rfcafe-leads], seen; [liquisearch-leads] agrees on the IF transformer.
const leads: Readonly<Record<LeadKind, Readonly<Record<string, string>>>> = {
	IF: {
		blue: 'plate',
		red: 'B-plus',
		green: 'grid or diode',
		black: 'AVC or ground',
		yellow: 'other grid, where the secondary is tapped',
	},
	output: {
		blue: 'plate',
		red: 'B-plus',
		brown: 'other plate, push-pull',
		green: 'grid, or voice coil',
		black: 'grid return, or voice coil',
		yellow: 'other grid, push-pull',
	},
	power: {
		black: 'mains',
		red: 'high voltage',
		yellow: 'rectifier filament',
		green: 'heaters, first winding',
		brown: 'heaters, second winding',
		grey: 'heaters, third winding',
		'black and yellow': 'mains, tap',
		'black and red': 'mains, end of a tapped winding',
		'red and yellow': 'high voltage, centre tap',
		'yellow and blue': 'rectifier filament, centre tap',
		'green and yellow': 'heaters, first winding, centre tap',
		'brown and yellow': 'heaters, second winding, centre tap',
		'grey and yellow': 'heaters, third winding, centre tap',
	},
};

/** All leads of a kind of transformer by colour, and where each goes. */
export function leadCode(kind: LeadKind): Readonly<Record<string, string>> {
	return leads[kind];
}
