/**
 * How the charge of the diode's one pulse a cycle shapes that pulse. All voltages in units of the diode's slope voltage:
 * x the carrier's amplitude, y = charge of a pulse / (tank and reservoir in series times slope voltage).
 */
interface PulseShape {
	/** ln of the charge without the pulse's own effect, less ln(2 sinh(y/2)). */
	readonly lnHeld: number;
	/** Fundamental in step with the carrier, as share of twice the mean current, less what a free pulse has: I1(x) / I0(x). */
	readonly cosine: number;
	/** Fundamental that leads the carrier, likewise: the charge comes early in the cycle. */
	readonly sine: number;
}

/** Share of the tank in the pulse's voltage. Between 0.5 and 0.7 the load voltage moves by less than 0.01 dB (tried). */
const tankShare = 0.5;
const angles = 128;
const rounds = 5;

/**
 * The pulse by integration over one cycle. The charge so far, q, takes voltage off the diode; between pulses tank and reservoir recover steadily,
 * and the tank keeps its fundamental, which is counted in x: dq/da = exp(x cos a + rest(a) - q) has the integral ln(1 + ...).
 */
function integrated(x: number, y: number): PulseShape {
	const half = Math.min(Math.PI, 7 / Math.sqrt(Math.max(x, 1e-9)));
	const step = (2 * half) / angles;
	let cosine = 1;
	let sine = 0;
	let lnHeld = 0;
	let freeCosine = 0;
	const taken = new Float64Array(angles + 1);
	for (let round = 0; round < rounds; round++) {
		const rest = (angleRad: number): number =>
			(y * angleRad) / (2 * Math.PI) +
			(tankShare * y * (cosine * Math.sin(angleRad) + sine * Math.cos(angleRad))) / Math.PI;
		let whole = 0;
		let free = 0;
		freeCosine = 0;
		for (let k = 0; k < angles; k++) {
			const a = -half + (k + 0.5) * step;
			const bare = Math.exp(x * (Math.cos(a) - 1));
			free += bare;
			freeCosine += bare * Math.cos(a);
			whole += bare * Math.exp(rest(a));
			taken[k + 1] = whole;
		}
		let inStep = 0;
		let leading = 0;
		// Mean over the cycle of what the pulse adds to the diode's voltage: counted in the mean voltages already.
		let mean = 0;
		let before = 0;
		for (let k = 0; k < angles; k++) {
			const a = -half + (k + 0.5) * step;
			const now = Math.log1p((Math.expm1(y) * (taken[k + 1] as number)) / whole);
			inStep += (now - before) * Math.cos(a);
			leading -= (now - before) * Math.sin(a);
			mean -= ((now + before) / 2) * step;
			before = now;
		}
		mean = (mean - y * (Math.PI - half)) / (2 * Math.PI);
		cosine = inStep / y;
		sine = leading / y;
		freeCosine /= free;
		lnHeld = Math.log((free / whole) * Math.expm1(y)) + mean - Math.log(2 * Math.sinh(y / 2));
	}
	return { lnHeld, cosine: cosine - freeCosine, sine };
}

/** The table runs over the root of x and over y / x. */
const columns = 28;
const mostRoot = 12;
const rows = 14;
const mostRatio = 0.4;

interface PulseTable {
	readonly lnHeld: Float64Array;
	readonly cosine: Float64Array;
	readonly sine: Float64Array;
}

function makeTable(): PulseTable {
	const table: PulseTable = {
		lnHeld: new Float64Array(columns * rows),
		cosine: new Float64Array(columns * rows),
		sine: new Float64Array(columns * rows),
	};
	for (let column = 0; column < columns; column++) {
		const x = Math.max(1e-6, ((mostRoot * column) / (columns - 1)) ** 2);
		for (let row = 0; row < rows; row++) {
			const y = Math.max(1e-6, (mostRatio * row) / (rows - 1)) * x;
			const shape = integrated(x, y);
			table.lnHeld[row * columns + column] = shape.lnHeld;
			table.cosine[row * columns + column] = shape.cosine;
			table.sine[row * columns + column] = shape.sine;
		}
	}
	return table;
}

let made: PulseTable | null = null;

/** Shape of the pulse, from a table that is made at first use; beyond its ends the nearest entry. */
export class DiodePulse {
	/** Where the table is read: amplitude and charge. A number handed over as an argument may ask for memory; in a sound they are put here instead. */
	x = 1;
	y = 1;
	readonly #table: PulseTable;
	#at = 0;
	#w00 = 1;
	#w10 = 0;
	#w01 = 0;
	#w11 = 0;
	/** As in the shape of a pulse. */
	lnHeld = 0;
	/** Slopes of `lnHeld` over the amplitude and over the charge. */
	lnHeldByX = 0;
	lnHeldByY = 0;
	cosine = 0;
	sine = 0;

	constructor() {
		made ??= makeTable();
		this.#table = made;
	}

	/** Reads the table for an amplitude and a charge; the answer stands in the fields. */
	read(x: number, y: number): void {
		this.x = x;
		this.y = y;
		this.readHere();
	}

	/** Reads the table where the fields say. */
	readHere(): void {
		const { x, y } = this;
		const root = Math.sqrt(x) + 1e-9;
		const across = Math.min((root * (columns - 1)) / mostRoot, columns - 1.000001);
		const ratio = Math.min(y / (root * root), mostRatio);
		const down = Math.min((ratio * (rows - 1)) / mostRatio, rows - 1.000001);
		const column = Math.floor(across);
		const row = Math.floor(down);
		const a = across - column;
		const b = down - row;
		const at = row * columns + column;
		const { lnHeld, cosine, sine } = this.#table;
		const w00 = (1 - a) * (1 - b);
		const w10 = a * (1 - b);
		const w01 = (1 - a) * b;
		const w11 = a * b;
		const h00 = lnHeld[at] as number;
		const h10 = lnHeld[at + 1] as number;
		const h01 = lnHeld[at + columns] as number;
		const h11 = lnHeld[at + columns + 1] as number;
		this.lnHeld = w00 * h00 + w10 * h10 + w01 * h01 + w11 * h11;
		const byColumn = (1 - b) * (h10 - h00) + b * (h11 - h01);
		const byRatio = ratio === mostRatio ? 0 : (((1 - a) * (h01 - h00) + a * (h11 - h10)) * (rows - 1)) / mostRatio;
		this.lnHeldByY = byRatio / (root * root);
		this.lnHeldByX = (byColumn * (columns - 1)) / (2 * mostRoot * root) - this.lnHeldByY * ratio;
		this.#at = at;
		this.#w00 = w00;
		this.#w10 = w10;
		this.#w01 = w01;
		this.#w11 = w11;
		this.cosine = this.#between(cosine);
		this.sine = this.#between(sine);
	}

	/** Between the four entries about the last place that was read. A method, since a function made anew at each call would be slow. */
	#between(entries: Float64Array): number {
		return (
			this.#w00 * (entries[this.#at] as number) +
			this.#w10 * (entries[this.#at + 1] as number) +
			this.#w01 * (entries[this.#at + columns] as number) +
			this.#w11 * (entries[this.#at + columns + 1] as number)
		);
	}
}
