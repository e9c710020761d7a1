import type { OscillatorSide } from '#core/circuit/tracking-curve.ts';
import { readCurve } from '#core/estimate/curve-reading.ts';
import { type IfEvidence, ifAsDesigned, ifAsFound, ifFromDial, ifLimits } from '#core/estimate/if-finding.ts';
import type { Language } from '#record/language.ts';
import { frequencyWords } from '#record/quantity-words.ts';
import { parseSweep } from '#record/sweep-file.ts';
import { answerRow } from './answer-row.ts';
import { type CommandInput, InputFault } from './command.ts';
import { marksIn } from './dial-file.ts';
import { readInput, readQuantity } from './input.ts';
import { PartOptions } from './part-options.ts';
import { spokenCommand } from './spoken-command.ts';

/** A repeatable option's values. */
function all(values: CommandInput['values'], name: string): readonly string[] {
	const given = values[name];
	return Array.isArray(given) ? given.filter((one) => typeof one === 'string') : [];
}

function two(name: string, words: string, separator: string, example: string): readonly [number, number] {
	const [first, second, ...more] = words.split(separator);
	if (first === undefined || second === undefined || more.length > 0) {
		throw new InputFault(`--${name}: cannot read "${words}": give two frequencies, such as ${example}`);
	}
	return [readQuantity('frequency', `--${name}`, first), readQuantity('frequency', `--${name}`, second)];
}

/** An IF that no set of this kind has is a slip of the pen. */
function checked(ifHz: number, where: string): void {
	if (!(ifHz > ifLimits.lowHz && ifHz < ifLimits.highHz)) {
		throw new InputFault(`${where}: gives an IF of ${frequencyWords(ifHz, 'US')}: check the two frequencies`);
	}
}

function evidenceOf(values: CommandInput['values'], uncertaintyHz: number): readonly IfEvidence[] {
	const pairs = all(values, 'image-pair').map((words): IfEvidence => {
		const [lowHz, highHz] = two('image-pair', words, ',', '1000kc,1910kc');
		checked(Math.abs(highHz - lowHz) / 2, '--image-pair');
		return { kind: 'image pair', lowHz, highHz, uncertaintyHz };
	});
	const counted = all(values, 'oscillator').map((words): IfEvidence => {
		const [oscillatorHz, heardHz] = two('oscillator', words, '@', '1455kc@1000kc');
		checked(Math.abs(oscillatorHz - heardHz), '--oscillator');
		return { kind: 'oscillator', oscillatorHz, heardHz, uncertaintyHz };
	});
	const heard = all(values, 'whistle').map((words): IfEvidence => {
		const frequencyHz = readQuantity('frequency', '--whistle', words);
		checked(frequencyHz / 2, '--whistle');
		return { kind: 'whistle', frequencyHz, uncertaintyHz };
	});
	const swept = all(values, 'sweep').map((path): IfEvidence => {
		const sweep = parseSweep(readInput(path, 'a sweep, such as kHz,dB').toString('utf8'), path);
		if (!sweep.ok) throw new InputFault(`${path}: ${sweep.words}`);
		const { points } = sweep.value;
		const highest = points.reduce((best, point) => (point.levelDb > best.levelDb ? point : best));
		const { peakHz } = readCurve(points, 0.1, highest.frequencyHz);
		checked(peakHz.value, path);
		return { kind: 'sweep', peakHz: peakHz.value, uncertaintyHz: Math.hypot(uncertaintyHz, peakHz.uncertainty ?? 0) };
	});
	return [...pairs, ...counted, ...heard, ...swept];
}

/** Where the oscillator lies on the band of the dial: as said, else as counted; the two sides of two bands tell nothing of a third. */
function sideOf(options: PartOptions, evidence: readonly IfEvidence[]): OscillatorSide {
	if (options.has('side')) return options.oneOf('side', ['above', 'below'], 'above');
	const [counted = 'above', ...others] = new Set(
		evidence.flatMap((one): OscillatorSide[] =>
			one.kind === 'oscillator' ? [one.oscillatorHz > one.heardHz ? 'above' : 'below'] : [],
		),
	);
	if (others.length > 0)
		throw new InputFault('--oscillator: above the signal in one reading, below it in another: give --side for --dial');
	return counted;
}

const kc = (hz: number): string => (hz / 1e3).toFixed(1);

/** The question that would tell the two likeliest apart. */
function question(list: ReturnType<typeof ifAsDesigned>['list'], { say, figure }: Language): string | null {
	const [first, second] = list;
	if (!first || !second || first.probability > 0.8) return null;
	const [one, other] = [kc(first.ifHz), figure(`${kc(second.ifHz)} kc`)];
	return Math.abs(first.ifHz - second.ifHz) <= 1.5e3
		? say`${one} and ${other} need not be told apart: the strip is broader than that. The maker's sheet says which.`
		: say`What would settle ${one} against ${other}: the maker's sheet; or set the IF to each in turn, trim the oscillator right at the high end, and see with which the low end is right as well.`;
}

export const findIfCommand = spokenCommand({
	name: 'find-if',
	summary: 'an unknown IF: where the strip is now, and what it was designed for, with probabilities',
	usage:
		'[--image-pair 1000kc,1910kc] [--oscillator 1455kc@1000kc] [--whistle 910kc] [--sweep FILE] [--dial FILE] [--side above|below] [--generator 1kc] [--year 1938] [--country US] [--habit 465kc] [--json]',
	examples: [
		'npx peakwright find-if --image-pair 1000kc,1910kc --image-pair 600kc,1511kc',
		'npx peakwright find-if --oscillator 1461kc@1000kc --year 1936 --country US',
	],
	options: {
		...Object.fromEntries(
			['image-pair', 'oscillator', 'whistle', 'sweep', 'dial'].map((name) => [
				name,
				{ type: 'string' as const, multiple: true },
			]),
		),
		...Object.fromEntries(
			['side', 'generator', 'year', 'country', 'habit'].map((name) => [name, { type: 'string' as const }]),
		),
		json: { type: 'boolean' },
	},
	run({ values, positionals }, output, language) {
		const { say, figure } = language;
		if (positionals.length > 0) throw new InputFault(`cannot use "${positionals[0]}": find-if takes options only`);
		const options = new PartOptions(values);
		const evidence = evidenceOf(values, options.quantityOr('frequency', 'generator', 1e3));
		const dials = all(values, 'dial').flatMap((path) => marksIn(path));
		const present = evidence.length > 0 ? ifAsFound(evidence) : null;
		if (!present && dials.length > 0) {
			throw new InputFault('--dial alone does not give the IF: add --image-pair, --oscillator, --whistle or --sweep');
		}
		const year = options.has('year') ? Number(options.words('year', '1938')) : null;
		if (year !== null && !(year >= 1900 && year <= 2100)) throw new InputFault('--year: give a year, such as 1938');
		const origin = {
			year,
			country: options.has('country') ? options.words('country', 'US') : null,
			habitHz: options.quantityOr('frequency', 'habit', null),
		};
		if (!present && Object.values(origin).every((one) => one === null)) {
			throw new InputFault(
				'give what is known: --image-pair, --oscillator, --whistle, --sweep, or at least --year, --country or --habit',
			);
		}
		const side = dials.length > 0 ? sideOf(options, evidence) : 'above';
		if (present && side === 'below' && dials.some(({ heardHz }) => heardHz <= present.ifHz.value))
			throw new InputFault('--dial: no oscillator lies below a signal that is itself below the IF: give --side above');
		const fromDial = present ? ifFromDial(dials, present.ifHz, side) : null;
		const { list, restProbability } = ifAsDesigned(present?.ifHz ?? null, fromDial, origin);
		const asked = question(list, language);
		if (values.json === true) {
			output.line(
				JSON.stringify({
					asFoundHz: present?.ifHz ?? null,
					waysDisagree: present?.disagrees ?? false,
					asDesigned: list,
					restProbability,
					question: asked,
				}),
			);
			return;
		}
		const row = answerRow(12);
		if (present) {
			const { value, uncertainty } = present.ifHz;
			output.line(row(say`As found`, figure(`${kc(value)} \u00b1 ${kc(uncertainty ?? 0)} kc`)));
			if (present.disagrees)
				output.line(say`The ways differ by more than their errors: one of them is of something else.`);
		}
		output.line(say`As designed`);
		for (const { ifHz, probability } of list.filter((one) => one.probability > 0.02).slice(0, 8)) {
			output.line(`${figure(`${kc(ifHz).padStart(9)} kc`)}  ${(100 * probability).toFixed(0).padStart(3)} %`);
		}
		if (asked) output.line(asked);
		output.line(say`How common each IF is among old sets is assumed; no source gives counts.`);
	},
});
