import { dialAnswer, readingFault } from '#advice/dial/dial-answer.ts';
import { actWords, kcWords, remarkWords, sizeWords, worstWords } from '#advice/dial/dial-words.ts';
import { bestTiePoints } from '#core/circuit/tracking-curve.ts';
import type { DialGround } from '#core/estimate/dial-model.ts';
import type { DialPoint } from '#core/estimate/dial-solve.ts';
import { frequencyWords } from '#record/quantity-words.ts';
import { type Command, InputFault } from './command.ts';
import { marksIn, wantedReadings } from './dial-file.ts';
import { bandOption, tiePointsOption } from './dial-options.ts';
import { PartOptions } from './part-options.ts';

function pointsIn(path: string, pass: number, generatorHz: number, ground: DialGround): readonly DialPoint[] {
	const marks = marksIn(path);
	const points = marks.map(({ dialHz, heardHz, digitUncertaintyHz }) => ({
		dialHz,
		heardHz,
		heardUncertaintyHz: Math.hypot(generatorHz, digitUncertaintyHz),
		pass,
	}));
	const fault = readingFault(ground, points);
	if (fault) throw new InputFault(`${path}: line ${marks[fault.place]?.line}: ${fault.words}`);
	if (new Set(points.map(({ dialHz }) => dialHz)).size < 2) {
		throw new InputFault(`${path}: give readings at two marks or more; 7 spread over the scale are best`);
	}
	return points;
}

function groundOf(options: PartOptions): DialGround {
	const band = bandOption(options);
	const ifHz = options.quantity('frequency', 'if', '455kc');
	const side = options.oneOf('oscillator', ['above', 'below'], 'above');
	const name = options.has('points') ? 'points' : 'tracking';
	if (side === 'below' && band.lowHz <= ifHz) {
		throw new InputFault('--oscillator: it cannot lie below a signal that is itself below the IF: give above');
	}
	return {
		band,
		ifHz,
		side,
		pointsHz: options.has(name) ? tiePointsOption(options, name) : bestTiePoints(band, ifHz, side, 'kilocycles'),
		network: options.oneOf('network', ['gang', 'coil'], 'gang'),
		lowEnd: options.oneOf('low-end', ['padder', 'slug', 'none'], 'padder'),
		hasCutPlates: options.oneOf('cut-plates', ['yes', 'no'], 'no') === 'yes',
		readingM: options.quantityOr('length', 'reading', 0.3e-3),
		travelM: options.quantityOr('length', 'travel', 0.15),
	};
}

export const dialCommand: Command = {
	name: 'dial',
	summary: 'who is at fault for a dial that is off, and what two acts put it right',
	usage:
		'CHECKS.csv [SECOND-PASS.csv ...] --if 455kc --band 540kc-1600kc [--points 600kc,1000kc,1400kc | --tracking 600kc,1000kc,1400kc] [--network gang|coil] [--low-end padder|slug|none] [--cut-plates yes|no] [--oscillator above|below] [--reading 0.3mm] [--travel 150mm] [--generator 0.2kc] [--json]',
	examples: [
		'npx peakwright dial marks.csv --if 455kc --band 540kc-1600kc --reading 0.3mm --travel 150mm',
		'npx peakwright dial first.csv second.csv --if 455kc --band 540kc-1600kc --low-end slug',
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
			].map((name) => [name, { type: 'string' as const }]),
		),
		json: { type: 'boolean' },
	},
	run({ values, positionals }, output) {
		if (positionals.length === 0) throw new InputFault(`give the readings: ${wantedReadings}, one line for each mark`);
		const options = new PartOptions(values);
		const ground = groundOf(options);
		const generatorHz = options.quantityOr('frequency', 'generator', 200);
		const points = positionals.flatMap((path, pass) => pointsIn(path, pass, generatorHz, ground));
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
		const remarks = remarkWords(answer);
		if (values.json === true) {
			output.line(
				JSON.stringify({
					errors: errors.map(({ dialHz, errorHz, uncertaintyHz }) => ({ dialHz, errorHz, uncertaintyHz })),
					causes,
					steps: plan.acts,
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
				`${frequencyWords(dialHz, 'US').padStart(10)}  ${kcWords(errorHz).padStart(9)} \u00b1 ${(uncertaintyHz / 1e3).toFixed(1)}`,
			);
		}
		output.line('');
		for (const cause of causes) {
			output.line(
				`${cause.cause.padEnd(8)} ${sizeWords(cause).padEnd(20)} ${(cause.worstIfOnlyThisIsCuredHz / 1e3).toFixed(1)} kc would be left if only this were put right`,
			);
		}
		output.line('');
		output.line(`Worst now: ${worstWords(plan.worstNowHz)}`);
		for (const [place, act] of plan.acts.entries()) output.line(`${place + 1}. ${actWords(act, place === 0)}`);
		output.line(`Foretold: ${worstWords(plan.predictedWorstHz)} at worst`);
		for (const remark of remarks) output.line(remark);
		output.line('Local codes and licensed practice come first.');
	},
};
