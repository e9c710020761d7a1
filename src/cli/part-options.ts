import type { PartKind, Stock } from '#advice/parts/part-choice.ts';
import type { Range } from '#core/circuit/if-capacitor.ts';
import type { Series } from '#core/circuit/preferred-values.ts';
import type { QuantityKind } from '#record/quantity.ts';
import { type CommandInput, InputFault } from './command.ts';
import { readInput, readQuantity } from './input.ts';

/** The options of `part`, read one by one; each reader says what is missing or cannot be read. */
export class PartOptions {
	readonly #values: CommandInput['values'];

	constructor(values: CommandInput['values']) {
		this.#values = values;
	}

	has(name: string): boolean {
		return this.#values[name] !== undefined;
	}

	words(name: string, example: string): string {
		const given = this.#values[name];
		if (typeof given !== 'string') throw new InputFault(`--${name} is missing: give it, such as --${name} ${example}`);
		return given;
	}

	quantity(kind: QuantityKind, name: string, example: string): number {
		return readQuantity(kind, `--${name}`, this.words(name, example));
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
			throw new InputFault(`--${name}: cannot read "${this.words(name, '')}": give per cent below 100, such as 5%`);
		}
		return share;
	}

	count(name: string, example: string): number {
		const words = this.words(name, example);
		const count = Number(words);
		if (!/^\d+(\.\d+)?$/.test(words) || !(count > 0 && count <= 1e5)) {
			throw new InputFault(`--${name}: cannot read "${words}": give a number above 0, such as ${example}`);
		}
		return count;
	}

	oneOf<Choice extends string>(name: string, choices: readonly Choice[], usual: Choice): Choice {
		if (!this.has(name)) return usual;
		const words = this.words(name, usual);
		const choice = choices.find((one) => one.toLowerCase() === words.toLowerCase());
		if (!choice) throw new InputFault(`--${name}: cannot use "${words}": give one of ${choices.join(', ')}`);
		return choice;
	}

	/** Two quantities with a hyphen or a comma between, the lesser first. */
	range(kind: QuantityKind, name: string, example: string): Range {
		const words = this.words(name, example);
		const [low, high, ...more] = words.split(/\s*(?:,|-(?=\s*[\d.]))\s*/);
		if (low === undefined || high === undefined || more.length > 0) {
			throw new InputFault(`--${name}: cannot read "${words}": give least and most, such as ${example}`);
		}
		const range = { least: readQuantity(kind, `--${name}`, low), most: readQuantity(kind, `--${name}`, high) };
		if (!(range.most > range.least)) throw new InputFault(`--${name}: "${words}": give the lesser first`);
		return range;
	}

	/** The drawer where one is given, the series otherwise. */
	stock(kind: PartKind): Stock {
		const series: readonly Series[] = ['E6', 'E12', 'E24', 'E48', 'E96'];
		if (!this.has('drawer')) return { kind: 'series', series: this.oneOf('series', series, 'E12') };
		const words = this.words('drawer', '47mmf,100mmf');
		const text = /\.(txt|csv)$/i.test(words) ? readInput(words, 'a list or a text file').toString('utf8') : words;
		const values = text.split(/[,;\n\r]+/).filter((entry) => entry.trim() !== '');
		if (values.length === 0 || values.length > 500) {
			throw new InputFault(`--drawer: ${values.length} values: give from 1 to 500, such as 47mmf,100mmf`);
		}
		return { kind: 'drawer', values: values.map((entry) => readQuantity(kind, '--drawer', entry)) };
	}
}
