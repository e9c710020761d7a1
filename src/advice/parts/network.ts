import { attenuator, builtAttenuator } from '#core/circuit/attenuator.ts';
import { dummyImpedance, simpleDummy, standardDummy } from '#core/circuit/dummy-antenna.ts';
import { type Series, seriesTolerance } from '#core/circuit/preferred-values.ts';
import { timeConstant } from '#core/circuit/time-constant.ts';
import {
	capacitanceWords,
	decimalWords,
	frequencyWords,
	inductanceWords,
	resistanceWords,
} from '#record/quantity-words.ts';
import { type PartAnswer, percentWords } from './part-answer.ts';

/** An attenuator between equal impedances, exact and in preferred values. */
export function attenuatorAnswer(shape: 'T' | 'pi', impedanceOhm: number, lossDb: number, series: Series): PartAnswer {
	const exact = attenuator(shape, impedanceOhm, lossDb);
	const { seriesOhm, shuntOhm, lossDb: builtDb, inputOhm } = builtAttenuator(shape, impedanceOhm, lossDb, series);
	const [inSeries, across] = shape === 'T' ? ['two of', 'one of'] : ['one of', 'two of'];
	const build = `${inSeries} ${resistanceWords(seriesOhm)} in series, ${across} ${resistanceWords(shuntOhm)} across`;
	return {
		figures: {
			shape,
			exact: { seriesOhm: exact.seriesOhm, shuntOhm: exact.shuntOhm },
			seriesOhm,
			shuntOhm,
			lossDb: builtDb,
			inputOhm,
		},
		lines: [
			{ name: 'exact', words: `series ${resistanceWords(exact.seriesOhm)}, across ${resistanceWords(exact.shuntOhm)}` },
			{ name: `in ${series}`, words: build },
			{ name: 'gives', words: `${builtDb.toFixed(2)} dB, ${resistanceWords(inputOhm)} at the input` },
		],
		sheetWords: `Attenuator ${shape}, ${resistanceWords(impedanceOhm)}: ${build}; ${builtDb.toFixed(1)} dB.`,
		toleranceWords: `Resistors of ${series} usually keep \u00b1${percentWords(seriesTolerance[series])}. Above about 40 dB in one box what leaks round it counts: shield each stage, or use two.`,
		sourceWords: 'Textbook forms of the symmetrical T and pi.',
		cautions: [
			'Between generator and dummy antenna only: it holds off no voltage of the set. Keep the blocking capacitor behind it.',
		],
	};
}

/** The dummy antenna for a frequency. */
export function dummyAnswer(frequencyHz: number): PartAnswer {
	const { re, im } = dummyImpedance(frequencyHz);
	const { seriesF, coilH, branchF, branchOhm } = standardDummy;
	const standard = `${capacitanceWords(seriesF)} from the generator, then ${inductanceWords(coilH)} to the antenna terminal; across the coil ${capacitanceWords(branchF)} with ${resistanceWords(branchOhm)}`;
	const isLow = frequencyHz <= simpleDummy.upToHz;
	const simple = isLow
		? `${capacitanceWords(simpleDummy.seriesF)} alone`
		: `${resistanceWords(simpleDummy.aboveOhm)} alone`;
	return {
		figures: {
			frequencyHz,
			standard: { seriesF, coilH, branchF, branchOhm },
			impedance: { reOhm: re, imOhm: im, sizeOhm: Math.hypot(re, im) },
			simple: isLow ? { seriesF: simpleDummy.seriesF } : { seriesOhm: simpleDummy.aboveOhm },
		},
		lines: [
			{ name: 'standard', words: standard },
			{ name: 'simple', words: simple },
			{
				name: `at ${frequencyWords(frequencyHz, 'US')}`,
				words: `${resistanceWords(Math.hypot(re, im))}: ${re.toFixed(0)} ohms and ${im < 0 ? '\u2212' : '+'}j${Math.abs(im).toFixed(0)}`,
			},
		],
		sheetWords: `Dummy antenna: ${simple} (simple), or ${standard}.`,
		toleranceWords:
			'Parts within 10 % do (chosen): antennas differ more. A loop or rod set wants no dummy but a loop near by; a car set the maker\u2019s own.',
		sourceWords:
			'Standard dummy antenna as quoted from period service documents; simple ones from a period service text.',
		cautions: [
			'A dummy antenna isolates nothing: a set with a live chassis needs its isolation transformer before a generator is clipped to it.',
		],
	};
}

/** Time constant of an AVC line. */
export function avcAnswer(resistanceOhm: number, capacitanceF: number): PartAnswer {
	const figures = timeConstant(resistanceOhm, capacitanceF);
	return {
		figures: { ...figures },
		lines: [
			{ name: 'time constant', words: `${(figures.constantS * 1e3).toPrecision(3)} ms` },
			{ name: 'settled', words: `${(figures.settledS * 1e3).toPrecision(3)} ms to 95 %: wait as long before reading` },
			{ name: 'corner', words: frequencyWords(figures.cornerHz, 'US') },
			{ name: '400 c tone', words: `${decimalWords(figures.tone400Db, 0)} dB left on the line` },
		],
		sheetWords: `AVC ${resistanceWords(resistanceOhm)} and ${capacitanceWords(capacitanceF)}: ${(figures.constantS * 1e3).toPrecision(3)} ms.`,
		toleranceWords:
			'Filter alone: as the gain rises with a falling signal the loop is slower or faster than it. As uncertain as resistor and capacitor.',
		sourceWords: 'R times C.',
		cautions: [
			'A leaky AVC capacitor spoils the AVC long before it spoils the time constant: fit a new one of at least the old rating.',
		],
	};
}
