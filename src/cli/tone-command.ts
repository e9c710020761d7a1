import type { Estimate } from '#core/numeric/estimate.ts';
import { toneFrame } from '#core/signal/frame.ts';
import { measureTone, type ToneMeasurement } from '#core/signal/tone.ts';
import { estimateWords } from '#record/estimate-words.ts';
import type { Language } from '#record/language.ts';
import { parseWav, type Recording } from '#record/wav.ts';
import { answerRow } from './answer-row.ts';
import { InputFault } from './command.ts';
import { quantityOption, readInput } from './input.ts';
import { spokenCommand } from './spoken-command.ts';

function recordingIn(path: string): Recording {
	const parsed = parseWav(readInput(path, 'the path of a WAV file'));
	if (!parsed.ok) throw new InputFault(`${path}: ${parsed.words}`);
	return parsed.value;
}

function channelOf(recording: Recording, path: string, words: unknown): Float32Array {
	const number = words === undefined ? 1 : Number(words);
	const channel = Number.isInteger(number) ? recording.channels[number - 1] : undefined;
	if (!channel)
		throw new InputFault(`--channel: ${path} has channels 1 to ${recording.channels.length}; give one of them`);
	return channel;
}

const known = (estimate: Estimate | null, unit: string): string => (estimate ? estimateWords(estimate, unit) : '-');

const row = answerRow(11);

function lines(measured: ToneMeasurement, { say, term, figure }: Language): readonly string[] {
	return [
		row(say`verdict`, term(measured.verdict)),
		row(say`tone`, figure(known(measured.toneHz, 'c'))),
		row(say`level`, known(measured.levelDbfs, say`dB of full scale`)),
		row(say`SINAD`, known(measured.sinadDb, 'dB, (S+N+D)/(N+D)')),
		row(say`distortion`, known(measured.thdDb, say`dB of the tone`)),
		row(say`hum`, known(measured.humDbc, say`dB of the tone`)),
		row(say`asymmetry`, known(measured.asymmetry, say`of top and bottom`)),
	];
}

export const toneCommand = spokenCommand({
	name: 'tone',
	summary: 'measures the tone in a recording: level, frequency, distortion, hum',
	usage: 'FILE.wav [--tone 400c] [--channel 1] [--frames 0.1s] [--json]',
	examples: ['npx peakwright tone bench.wav', 'npx peakwright tone bench.wav --tone 400c --frames 0.1s --json'],
	options: {
		tone: { type: 'string' },
		channel: { type: 'string' },
		frames: { type: 'string' },
		json: { type: 'boolean' },
	},
	run({ values, positionals }, output, language) {
		const [path, ...more] = positionals;
		if (path === undefined || more.length > 0) throw new InputFault('give one WAV file: npx peakwright tone FILE.wav');
		const expectedHz = quantityOption('frequency', 'tone', values.tone, null);
		const frameS = quantityOption('time', 'frames', values.frames, null);
		const recording = recordingIn(path);
		const samples = channelOf(recording, path, values.channel);
		const { sampleRateHz } = recording;
		const measured = measureTone(samples, sampleRateHz, expectedHz);
		const frameLength = frameS === null ? 0 : Math.round(frameS * sampleRateHz);
		if (frameS !== null && (frameLength < sampleRateHz * 0.02 || frameLength > samples.length)) {
			throw new InputFault(
				`--frames: give from 0.02 s up to the length of the recording, ${(samples.length / sampleRateHz).toFixed(2)} s`,
			);
		}
		const frameToneHz = expectedHz ?? measured.toneHz?.value ?? null;
		const frames =
			frameS === null || frameToneHz === null
				? undefined
				: Array.from({ length: Math.floor(samples.length / frameLength) }, (_, index) => ({
						atS: ((index + 0.5) * frameLength) / sampleRateHz,
						levelDbfs: toneFrame(
							samples.subarray(index * frameLength, (index + 1) * frameLength),
							sampleRateHz,
							frameToneHz,
						).levelDbfs,
					}));
		if (values.json === true) {
			const { verdict, ...figures } = measured;
			output.line(
				JSON.stringify({
					sampleRateHz,
					durationS: samples.length / sampleRateHz,
					...figures,
					verdict,
					...(frames ? { frames } : {}),
				}),
			);
			return;
		}
		for (const line of lines(measured, language)) output.line(line);
		for (const frame of frames ?? [])
			output.line(`${frame.atS.toFixed(2).padStart(8)} s  ${known(frame.levelDbfs, 'dB')}`);
	},
});
