import { type AvcLaw, avcLaw, inputOf } from '#core/estimate/avc-law.ts';
import { estimateWords } from '#record/estimate-words.ts';
import { decimalWords } from '#record/quantity-words.ts';
import { InputFault } from './command.ts';
import { quantityOption, readQuantity } from './input.ts';
import { spokenCommand } from './spoken-command.ts';
import { columnsIn } from './table-columns.ts';

function lawIn(path: string, meterDb: number): AvcLaw {
	const [input, output] = columnsIn(path, [
		{ word: 'input', kinds: ['level', 'voltage'], example: 'input uV' },
		{ word: 'output', kinds: ['level', 'voltage', 'power'], example: 'output dB' },
	]);
	const readings = (input?.values ?? []).map((inputDb, k) => ({
		inputDb,
		outputDb: output?.values[k] as number,
		uncertaintyDb: Math.max(meterDb, output?.digitUncertainties[k] as number),
	}));
	const law = avcLaw(readings);
	if (!law)
		throw new InputFault(`${path}: fewer than four steps at which the reading rises: give more steps, weaker ones too`);
	return law;
}

export const avcCommand = spokenCommand({
	name: 'avc',
	summary: 'measures the AVC law of a set from known steps of the generator, and turns readings back into input',
	usage: 'STEPS.csv [--reading=-12dB ...] [--meter 0.05dB] [--json]',
	examples: ['npx peakwright avc steps.csv', 'npx peakwright avc steps.csv --reading=-12.4dB --reading=-9.0dB --json'],
	options: { reading: { type: 'string', multiple: true }, meter: { type: 'string' }, json: { type: 'boolean' } },
	run({ values, positionals }, output, { say }) {
		const [path, ...more] = positionals;
		if (path === undefined || more.length > 0)
			throw new InputFault('give one table with the columns input uV,output dB: npx peakwright avc STEPS.csv');
		const meterDb = quantityOption('level', 'meter', values.meter, 0.05);
		if (!(meterDb > 0 && meterDb <= 3)) throw new InputFault('--meter: give from 0.001 to 3 dB, such as 0.05dB');
		const law = lawIn(path, meterDb);
		const typed = (Array.isArray(values.reading) ? values.reading : []).map(String);
		const readings = typed.map((words) => {
			const readingDb = readQuantity('level', '--reading', words);
			return { readingDb, inputDb: inputOf(law, { value: readingDb, uncertainty: meterDb }) };
		});
		if (values.json === true) {
			output.line(JSON.stringify({ places: law.places, overloadDb: law.overloadDb, readings }));
			return;
		}
		for (const { inputDb, outputDb, slopeDbPerDb } of law.places)
			output.line(
				say`input ${decimalWords(inputDb, 1).padStart(7)} dB  reads ${decimalWords(outputDb, 2).padStart(7)} dB  6 dB more read ${(6 * slopeDbPerDb).toFixed(1)} dB`,
			);
		if (law.overloadDb !== null) output.line(say`overloaded from ${decimalWords(law.overloadDb, 1)} dB on`);
		for (const { readingDb, inputDb } of readings)
			output.line(
				inputDb
					? say`a reading of ${decimalWords(readingDb, 2)} dB is an input of ${estimateWords(inputDb, 'dB')}`
					: say`a reading of ${decimalWords(readingDb, 2)} dB tells no input: it is outside the steps, or the law is flat there`,
			);
	},
});
