/**
 * Inductance of air-core coils. The current sheet is exact (Nagaoka, by complete elliptic integrals);
 * the two shop formulas of Wheeler are here because sheets and handbooks are worked with them.
 */
const mu0 = 4e-7 * Math.PI;
const metresPerInch = 0.0254;

/** Shape of a one-layer coil. */
export interface LayerCoil {
	readonly turns: number;
	/** To the middle of the wire. */
	readonly diameterM: number;
	/** Turns times pitch. */
	readonly lengthM: number;
}

/** Shape of a coil wound in many layers. */
export interface PiledCoil {
	readonly turns: number;
	readonly meanRadiusM: number;
	readonly lengthM: number;
	/** Outer radius less inner radius. */
	readonly depthM: number;
}

/** Complete elliptic integrals K and E of modulus k, by the arithmetic-geometric mean (closed form, to rounding). */
function ellipticIntegrals(modulus: number): { readonly firstKind: number; readonly secondKind: number } {
	let a = 1;
	let b = Math.sqrt(1 - modulus * modulus);
	let weight = 0.5;
	let sum = weight * modulus * modulus;
	for (let round = 0; round < 40 && Math.abs(a - b) > 1e-16 * a; round++) {
		const c = (a - b) / 2;
		[a, b] = [(a + b) / 2, Math.sqrt(a * b)];
		weight *= 2;
		sum += weight * c * c;
	}
	const firstKind = Math.PI / (2 * a);
	return { firstKind, secondKind: firstKind * (1 - sum) };
}

/**
 * Nagaoka's coefficient of a current sheet: what the ends take from the inductance of a long coil. Exact, [nagaoka-1909].
 * @param diameterPerLength diameter over length, above 0; loses digits below 0.001, where it is 1 within 0.05 %
 * @example nagaokaCoefficient(1) // => ~0.688423
 */
export function nagaokaCoefficient(diameterPerLength: number): number {
	if (!(diameterPerLength > 0)) {
		throw new Error(`invalid diameter over length: ${diameterPerLength}, expected a ratio above 0`);
	}
	if (diameterPerLength < 1e-3) return 1 - (4 * diameterPerLength) / (3 * Math.PI);
	const hypotenuse = Math.hypot(diameterPerLength, 1);
	const modulus = diameterPerLength / hypotenuse;
	const complement = 1 / hypotenuse;
	const { firstKind, secondKind } = ellipticIntegrals(modulus);
	const ratio = (complement / modulus) ** 2;
	return (4 / (3 * Math.PI * complement)) * (ratio * (firstKind - secondKind) + secondKind - modulus);
}

/** Inductance of a one-layer coil in henries as a current sheet, [nagaoka-1909]; round wire spaced apart stays some per cent below it. */
export function layerInductanceH({ turns, diameterM, lengthM }: LayerCoil): number {
	return ((mu0 * Math.PI * (turns * diameterM) ** 2) / (4 * lengthM)) * nagaokaCoefficient(diameterM / lengthM);
}

/** Inductance of a one-layer coil in henries by Wheeler's shop formula, [wheeler-1928]: about 1 % where the length is at least 0.4 diameters. */
export function wheelerLayerInductanceH({ turns, diameterM, lengthM }: LayerCoil): number {
	const radius = diameterM / 2 / metresPerInch;
	return (1e-6 * (radius * turns) ** 2) / (9 * radius + (10 * lengthM) / metresPerInch);
}

/** Inductance of a many-layer coil in henries by Wheeler's shop formula, [wheeler-1928]: about 1 % where its three terms are about equal. */
export function wheelerPiledInductanceH({ turns, meanRadiusM, lengthM, depthM }: PiledCoil): number {
	const terms = piledTerms({ turns, meanRadiusM, lengthM, depthM });
	const radius = meanRadiusM / metresPerInch;
	return (0.8e-6 * (radius * turns) ** 2) / (terms[0] + terms[1] + terms[2]);
}

function piledTerms({ meanRadiusM, lengthM, depthM }: PiledCoil): readonly [number, number, number] {
	return [(6 * meanRadiusM) / metresPerInch, (9 * lengthM) / metresPerInch, (10 * depthM) / metresPerInch];
}

/** Whether the many-layer formula is near its best: its three terms within a factor of two of each other (chosen reading of "about equal"). */
export function isPiledFormulaAtHome(coil: PiledCoil): boolean {
	const terms = piledTerms(coil);
	return Math.max(...terms) <= 2 * Math.min(...terms);
}

/**
 * Turns (not rounded) that bring a coil to the wanted inductance when turns are put on or taken off at the pitch it has.
 * @param inductanceH the formula for this kind of coil
 * @throws when the wanted inductance cannot be had between a hundredth of a turn and a hundred times the turns
 */
export function turnsForInductance<Coil extends { readonly turns: number; readonly lengthM: number }>(
	coil: Coil,
	wantedH: number,
	inductanceH: (coil: Coil) => number,
): number {
	const pitchM = coil.lengthM / coil.turns;
	const off = (turns: number) => inductanceH({ ...coil, turns, lengthM: turns * pitchM }) - wantedH;
	let low = 0.01;
	let high = 100 * coil.turns;
	if (!(off(low) < 0 && off(high) > 0))
		throw new Error(`invalid inductance: ${wantedH}, expected one this coil can have`);
	for (let round = 0; round < 100 && high - low > 1e-9 * high; round++) {
		const middle = (low + high) / 2;
		if (off(middle) < 0) low = middle;
		else high = middle;
	}
	return (low + high) / 2;
}
