import type { Range } from '#core/circuit/if-capacitor.ts';
import type { Series } from '#core/circuit/preferred-values.ts';
import type { BandLimits } from '#core/circuit/tracking-curve.ts';
import { parseQuantity, type QuantityKind } from '#record/quantity.ts';
import type { PartKind, Stock } from './part-choice.ts';

/** What a person typed to ask for a part, by name, read one by one; each reader says what is missing or cannot be read. */
export class PartWords {
	readonly #values: Readonly<Record<string, unknown>>;
	readonly #named: (name: string) => string;
	readonly #fault: (words: string) => Error;

	/** @param named how a value is called to the person; @param fault what is thrown when one cannot be used */
	constructor(
		values: Readonly<Record<string, unknown>>,
		named: (name: string) => string,
		fault: (words: string) => Error,
	) {
		this.#values = values;
		this.#named = named;
		this.#fault = fault;
	}

	/** What to throw when these values cannot be used together. */
	refusal(words: string): Error {
		return this.#fault(words);
	}

	/** How a value is called to the person. */
	called(name: string): string {
		return this.#named(name);
	}

	has(name: string): boolean {
		return this.#values[name] !== undefined && this.#values[name] !== '';
	}

	words(name: string, example: string): string {
		const given = this.#values[name];
		if (typeof given !== 'string' || given === '')
			throw this.#fault(`${this.#named(name)} is missing: give it, such as ${example}`);
		return given;
	}

	quantity(kind: QuantityKind, name: string, example: string): number {
		return this.read(kind, name, this.words(name, example));
	}

	/** A quantity, or what is usual when the option is not given. */
	quantityOr<Usual>(kind: QuantityKind, name: string, usual: Usual): number | Usual {
		return this.has(name) ? this.quantity(kind, name, '') : usual;
	}

	/** A share written as per cent, such as 5%. */
	shareOr(name: string, usual: number): number {
		if (!this.has(name)) return usual;
		const [, digits] = /^(\d+(?:\.\d+)?)\s*%$/.exec(this.words(name, '5%')) ?? [];
		const share = Number(digits) / 100;
		if (!(share >= 0 && share < 1)) {
			throw this.#fault(
				`${this.#named(name)}: cannot read "${this.words(name, '')}": give per cent below 100, such as 5%`,
			);
		}
		return share;
	}

	count(name: string, example: string): number {
		const words = this.words(name, example);
		const count = Number(words);
		if (!/^\d+(\.\d+)?$/.test(words) || !(count > 0 && count <= 1e5)) {
			throw this.#fault(`${this.#named(name)}: cannot read "${words}": give a number above 0, such as ${example}`);
		}
		return count;
	}

	oneOf<Choice extends string>(name: string, choices: readonly Choice[], usual: Choice): Choice {
		if (!this.has(name)) return usual;
		const words = this.words(name, usual);
		const choice = choices.find((one) => one.toLowerCase() === words.toLowerCase());
		if (!choice) throw this.#fault(`${this.#named(name)}: cannot use "${words}": give one of ${choices.join(', ')}`);
		return choice;
	}

	/** Two quantities with a hyphen or a comma between, the lesser first. */
	range(kind: QuantityKind, name: string, example: string): Range {
		const words = this.words(name, example);
		const [low, high, ...more] = words.split(/\s*(?:,|-(?=\s*[\d.]))\s*/);
		if (low === undefined || high === undefined || more.length > 0) {
			throw this.#fault(`${this.#named(name)}: cannot read "${words}": give least and most, such as ${example}`);
		}
		const range = { least: this.read(kind, name, low), most: this.read(kind, name, high) };
		if (!(range.most > range.least)) throw this.#fault(`${this.#named(name)}: "${words}": give the lesser first`);
		return range;
	}

	/** The drawer where one is given, the series otherwise. */
	stock(kind: PartKind): Stock {
		const series: readonly Series[] = ['E6', 'E12', 'E24', 'E48', 'E96'];
		if (!this.has('drawer')) return { kind: 'series', series: this.oneOf('series', series, 'E12') };
		const words = this.words('drawer', '47mmf,100mmf');
		const text = this.drawerText(words);
		const values = text.split(/[,;\n\r]+/).filter((entry) => entry.trim() !== '');
		if (values.length === 0 || values.length > 500) {
			throw this.#fault(`${this.#named('drawer')}: ${values.length} values: give from 1 to 500, such as 47mmf,100mmf`);
		}
		return { kind: 'drawer', values: values.map((entry) => this.read(kind, 'drawer', entry)) };
	}

	/** A quantity that a person typed under a name. */
	read(kind: QuantityKind, name: string, words: string): number {
		const parsed = parseQuantity(kind, words);
		if (!parsed.ok) throw this.#fault(`${this.#named(name)}: ${parsed.words}`);
		return parsed.value;
	}

	/** The two ends of a band, in either order. */
	band(): BandLimits {
		const { least, most } = this.range('frequency', 'band', '540kc-1600kc');
		return { lowHz: least, highHz: most };
	}

	/** Frequencies with commas between, sorted, all different. */
	points(name: string, count: number): readonly number[] {
		const words = this.words(name, '600kc,1000kc,1400kc');
		const points = words
			.split(',')
			.map((one) => this.read('frequency', name, one))
			.sort((a, b) => a - b);
		if (points.length !== count || points.some((point, place) => point === points[place - 1])) {
			throw this.#fault(
				`${this.#named(name)}: "${words}": give three different frequencies, such as 600kc,1000kc,1400kc`,
			);
		}
		return points;
	}

	/** The list of a drawer; where there are files, a file’s name may be given instead. */
	protected drawerText(words: string): string {
		return words;
	}
}
