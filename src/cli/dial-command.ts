import { dialAnswer, readingFault } from '#advice/dial/dial-answer.ts';
import { measuredScale, usualTiePoints } from '#advice/dial/dial-marks.ts';
import { actWords, kcWords, remarkWords, sizeWords, worstWords } from '#advice/dial/dial-words.ts';
import type { BandLimits } from '#core/circuit/tracking-curve.ts';
import { type DialGround, hasPadder } from '#core/estimate/dial-model.ts';
import type { DialPoint } from '#core/estimate/dial-solve.ts';
import { dialFor, type GeneratorDial, generatorDial, trueFor } from '#core/estimate/generator-dial.ts';
import { kilocycleWords } from '#record/estimate-words.ts';
import { InputFault } from './command.ts';
import { type FileMark, marksIn, wantedReadings } from './dial-file.ts';
import { bandOption, tiePointsOption } from './dial-options.ts';
import { generatorChecksIn } from './generator-file.ts';
import { PartOptions } from './part-options.ts';
import { spokenCommand } from './spoken-command.ts';

interface Readings {
	readonly path: string;
	readonly marks: readonly FileMark[];
}

/** Points of one pass; what the generator's dial said put right by its checks. */
function pointsIn(
	{ path, marks }: Readings,
	pass: number,
	generatorHz: number,
	generator: GeneratorDial | null,
	ground: DialGround,
): readonly DialPoint[] {
	const points = marks.map(({ dialHz, heardHz, digitUncertaintyHz }) => {
		const truth = generator ? trueFor(generator, heardHz) : { value: heardHz, uncertainty: 0 };
		return {
			dialHz,
			heardHz: truth.value,
			heardUncertaintyHz: Math.hypot(generatorHz, digitUncertaintyHz, truth.uncertainty ?? 0),
			pass,
		};
	});
	const fault = readingFault(ground, points);
	if (fault) throw new InputFault(`${path}: line ${marks[fault.place]?.line}: ${fault.words}`);
	if (new Set(points.map(({ dialHz }) => dialHz)).size < 2) {
		throw new InputFault(`${path}: give readings at two marks or more; 7 spread over the scale are best`);
	}
	return points;
}

/** The scale by the places in the files; what is usual where there are none. */
function rulerIn(readings: readonly Readings[], band: BandLimits): Partial<DialGround> {
	const placed = readings.flatMap(({ marks }) =>
		marks.flatMap(({ dialHz, placeM }) => (placeM === null ? [] : [{ dialHz, atM: placeM }])),
	);
	const dialsHz = [...new Set(placed.map(({ dialHz }) => dialHz))];
	if (dialsHz.length < 2) return {};
	const marks = dialsHz.map((dialHz) => {
		const own = placed.filter((one) => one.dialHz === dialHz);
		return { dialHz, atM: own.reduce((sum, { atM }) => sum + atM, 0) / own.length };
	});
	try {
		return measuredScale(band, marks);
	} catch {
		throw new InputFault(
			`${readings.map(({ path }) => path).join(', ')}: the places do not run on with the marks: measure each along the scale from one end`,
		);
	}
}

function groundOf(options: PartOptions): DialGround {
	const band = bandOption(options);
	const ifHz = options.quantity('frequency', 'if', '455kc');
	const side = options.oneOf('oscillator', ['above', 'below'], 'above');
	const name = options.has('points') ? 'points' : 'tracking';
	if (side === 'below' && band.lowHz <= ifHz) {
		throw new InputFault('--oscillator: it cannot lie below a signal that is itself below the IF: give above');
	}
	const hasCutPlates = options.oneOf('cut-plates', ['yes', 'no'], 'no') === 'yes';
	const lowEnd = options.oneOf(
		'low-end',
		['padder', 'slug', 'none'],
		hasPadder({ hasCutPlates, side }) ? 'padder' : 'none',
	);
	if (lowEnd === 'padder' && !hasPadder({ hasCutPlates, side })) {
		const why = hasCutPlates ? 'with cut plates' : 'below the signal';
		throw new InputFault(`--low-end: an oscillator ${why} has no padder: give slug or none`);
	}
	return {
		band,
		ifHz,
		side,
		pointsHz: options.has(name) ? tiePointsOption(options, name) : usualTiePoints(band, ifHz, { side, hasCutPlates }),
		network: options.oneOf('network', ['gang', 'coil'], 'gang'),
		lowEnd,
		hasCutPlates,
		readingM: options.quantityOr('length', 'reading', 0.3e-3),
		travelM: options.quantityOr('length', 'travel', 0.15),
	};
}

export const dialCommand = spokenCommand({
	name: 'dial',
	summary: 'who is at fault for a dial that is off, and what two acts put it right',
	usage:
		'CHECKS.csv [SECOND-PASS.csv ...] --if 455kc --band 540kc-1600kc [--points 600kc,1000kc,1400kc | --tracking 600kc,1000kc,1400kc] [--network gang|coil] [--low-end padder|slug|none] [--cut-plates yes|no] [--oscillator above|below] [--reading 0.3mm] [--travel 150mm] [--generator 0.2kc] [--checks GENERATOR.csv] [--json]',
	examples: [
		'npx peakwright dial marks.csv --if 455kc --band 540kc-1600kc --reading 0.3mm --travel 150mm',
		'npx peakwright dial first.csv second.csv --if 455kc --band 540kc-1600kc --low-end slug',
		'npx peakwright dial marks.csv --if 455kc --band 540kc-1600kc --checks generator.csv',
	],
	options: {
		...Object.fromEntries(
			[
				'if',
				'band',
				'points',
				'tracking',
				'network',
				'low-end',
				'cut-plates',
				'oscillator',
				'reading',
				'travel',
				'generator',
				'checks',
			].map((name) => [name, { type: 'string' as const }]),
		),
		json: { type: 'boolean' },
	},
	run({ values, positionals }, output, { say, term, figure, dial }) {
		if (positionals.length === 0) throw new InputFault(`give the readings: ${wantedReadings}, one line for each mark`);
		const options = new PartOptions(values);
		const given = groundOf(options);
		const readings = positionals.map((path) => ({ path, marks: marksIn(path) }));
		const ground = { ...given, ...rulerIn(readings, given.band) };
		const generator = typeof values.checks === 'string' ? generatorDial(generatorChecksIn(values.checks, 0)) : null;
		const generatorHz = options.quantityOr('frequency', 'generator', 200);
		const points = readings.flatMap((read, pass) => pointsIn(read, pass, generatorHz, generator, ground));
		let answer: ReturnType<typeof dialAnswer>;
		try {
			answer = dialAnswer(ground, points);
		} catch (error) {
			if (!(error as Error).message.startsWith('invalid tie points')) throw error;
			throw new InputFault(
				'--tracking: no oscillator goes through these tie points: give ones farther apart, inside the band',
			);
		}
		const { errors, causes, plan, alike, bestIf } = answer;
		const remarks = remarkWords(answer).map((words) => term(words));
		if (values.json === true) {
			output.line(
				JSON.stringify({
					errors: errors.map(({ dialHz, errorHz, uncertaintyHz }) => ({ dialHz, errorHz, uncertaintyHz })),
					causes,
					steps: generator
						? plan.acts.map((act) => ({ ...act, generatorDialHz: dialFor(generator, act.bringInHz) }))
						: plan.acts,
					worstNowHz: plan.worstNowHz,
					predictedWorstHz: plan.predictedWorstHz,
					alike,
					...(bestIf ? { bestIf } : {}),
					network: answer.model.ground.network,
					remarks,
				}),
			);
			return;
		}
		for (const { dialHz, errorHz, uncertaintyHz } of errors) {
			output.line(
				`${dial(dialHz).padStart(10)}  ${figure(kcWords(errorHz)).padStart(9)} \u00b1 ${(uncertaintyHz / 1e3).toFixed(1)}`,
			);
		}
		output.line('');
		for (const cause of causes) {
			output.line(
				`${term(cause.cause).padEnd(8)} ${figure(sizeWords(cause)).padEnd(20)} ${say`${(cause.worstIfOnlyThisIsCuredHz / 1e3).toFixed(1)} kc would be left if only this were put right`}`,
			);
		}
		output.line('');
		output.line(say`Worst now: ${figure(worstWords(plan.worstNowHz))}`);
		for (const [k, act] of plan.acts.entries()) {
			output.line(`${k + 1}. ${term(actWords(act, k === 0))}`);
			const place = generator && act.adjuster !== 'pointer' ? dialFor(generator, act.bringInHz) : null;
			if (place) output.line(`   ${say`${figure(kilocycleWords(place))} on the generator\u2019s dial`}`);
		}
		output.line(say`Foretold: ${figure(worstWords(plan.predictedWorstHz))} at worst`);
		for (const remark of remarks) output.line(remark);
		output.line(say`Local codes and licensed practice come first.`);
	},
});
