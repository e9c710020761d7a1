/** Taylor's series of the exponential to the 12th power, in four groups of three powers; with a norm below a half the rest is below 3e-14. */
const groups = 4;
const coefficients = new Float64Array(3 * groups + 1).fill(1);
for (let k = 1; k < coefficients.length; k++) coefficients[k] = (coefficients[k - 1] as number) / k;

/** `to = a b` for real square matrices, row by row; `to` is neither of them. */
function multiply(a: Float64Array, b: Float64Array, size: number, to: Float64Array): void {
	for (let row = 0; row < size; row++) {
		const from = row * size;
		for (let column = 0; column < size; column++) {
			let sum = 0;
			for (let k = 0; k < size; k++) sum += (a[from + k] as number) * (b[k * size + column] as number);
			to[from + column] = sum;
		}
	}
}

function rowNorm(matrix: Float64Array, size: number): number {
	let norm = 0;
	for (let row = 0; row < size; row++) {
		let sum = 0;
		for (let column = 0; column < size; column++) sum += Math.abs(matrix[row * size + column] as number);
		norm = Math.max(norm, sum);
	}
	return norm;
}

/**
 * Exponential of a real square matrix, row by row: Taylor's series of the matrix halved often enough, squared as often. An instance keeps its
 * room, so that a strip whose screws move in the middle of a sound asks for no memory.
 */
export class MatrixExponential {
	readonly #size: number;
	readonly #powers: readonly [Float64Array, Float64Array, Float64Array];
	#sum: Float64Array;
	#other: Float64Array;

	constructor(size: number) {
		this.#size = size;
		const room = (): Float64Array => new Float64Array(size * size);
		this.#powers = [room(), room(), room()];
		this.#sum = room();
		this.#other = room();
	}

	/** The exponential of `factor` times the matrix; good until the next call. */
	of(matrix: Float64Array, factor: number): Float64Array {
		const size = this.#size;
		const [one, two, three] = this.#powers;
		const halvings = Math.max(0, Math.ceil(Math.log2((Math.abs(factor) * rowNorm(matrix, size)) / 0.5)));
		const small = factor / 2 ** halvings;
		for (let k = 0; k < one.length; k++) one[k] = small * (matrix[k] as number);
		multiply(one, one, size, two);
		multiply(one, two, size, three);
		this.#sum.fill(0);
		this.#addToDiagonal(coefficients[3 * groups] as number);
		for (let group = groups - 1; group >= 0; group--) {
			multiply(three, this.#sum, size, this.#other);
			this.#swap();
			const at = 3 * group;
			for (let k = 0; k < one.length; k++) {
				this.#sum[k] =
					(this.#sum[k] as number) +
					(coefficients[at + 1] as number) * (one[k] as number) +
					(coefficients[at + 2] as number) * (two[k] as number);
			}
			this.#addToDiagonal(coefficients[at] as number);
		}
		for (let k = 0; k < halvings; k++) {
			multiply(this.#sum, this.#sum, size, this.#other);
			this.#swap();
		}
		return this.#sum;
	}

	#swap(): void {
		[this.#sum, this.#other] = [this.#other, this.#sum];
	}

	#addToDiagonal(value: number): void {
		for (let k = 0; k < this.#size; k++) {
			const at = k * (this.#size + 1);
			this.#sum[at] = (this.#sum[at] as number) + value;
		}
	}
}
