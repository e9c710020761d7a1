import type { Parsed } from '#record/parsed.ts';
import type { LiveMeter, MeterListener } from '../instrument.ts';
import { toneReading } from '../tone-reading.ts';
import tapUrl from './tap-worklet.ts?worker&url';

/** Processing that a browser puts between microphone and page; it would change every level. */
const processing = ['echoCancellation', 'noiseSuppression', 'autoGainControl'] as const;

/** An input can go without a word from the browser: it is looked after, and after so many looks without a frame of sound it is gone (chosen: two seconds). */
const lookMs = 500;
const looksWithoutSound = 4;

function refusal(error: unknown): string {
	const name = error instanceof DOMException ? error.name : '';
	if (name === 'NotAllowedError')
		return 'The browser does not let this page hear: allow the microphone beside the address, then try again.';
	if (name === 'NotFoundError') return 'There is no sound input: plug in a microphone or a sound card, then try again.';
	if (name === 'NotReadableError') return 'Another program holds the sound input: close it, then try again.';
	return `The sound input cannot be opened: ${error instanceof Error ? error.message : String(error)}`;
}

/** The unprocessed input, or why there is none: a level behind the browser's own processing is worth nothing. */
export async function plainInput(): Promise<Parsed<MediaStream>> {
	if (!globalThis.isSecureContext || !navigator.mediaDevices) {
		return { ok: false, words: 'Sound is heard only on this computer\u2019s own address: open the page at 127.0.0.1.' };
	}
	let stream: MediaStream;
	try {
		stream = await navigator.mediaDevices.getUserMedia({
			audio: { echoCancellation: false, noiseSuppression: false, autoGainControl: false },
		});
	} catch (error) {
		return { ok: false, words: refusal(error) };
	}
	const settings = stream.getAudioTracks()[0]?.getSettings() ?? {};
	const stillOn = processing.filter((name) => settings[name] !== false);
	if (stillOn.length > 0) {
		for (const track of stream.getTracks()) track.stop();
		return {
			ok: false,
			words: `The browser changes the sound (${stillOn.join(', ')}) and cannot be told not to: use another browser or a recording.`,
		};
	}
	return { ok: true, value: stream };
}

/**
 * Hears the sound input and reads the level of the tone ten times a second, in decibels of full scale.
 * Call it from a click: browsers start sound only then.
 */
export async function hearSoundCard(toneHz: number, listener: MeterListener): Promise<Parsed<LiveMeter>> {
	const input = await plainInput();
	if (!input.ok) return input;
	const context = new AudioContext();
	await context.audioWorklet.addModule(tapUrl);
	const tap = new AudioWorkletNode(context, 'tap', { numberOfOutputs: 0 });
	const [track] = input.value.getAudioTracks();
	const name = track?.label || 'sound input';
	// The rate is the context's own, never the one asked for.
	const source = { instrument: name, sampleRateHz: context.sampleRate, toneHz, fullScaleDbv: null };
	let frames = 0;
	tap.port.onmessage = ({ data }: MessageEvent<{ samples: Float32Array; endS: number }>) => {
		frames++;
		const endedMs = Date.now() - 1000 * Math.max(0, context.currentTime - data.endS);
		const { reading, picture } = toneReading(data.samples, endedMs, source);
		listener.reading(reading, picture);
	};
	const gone = (): void => listener.failure('The sound input is gone: plug it in again and listen anew.');
	track?.addEventListener('ended', gone);
	let seen = frames;
	let quiet = 0;
	const watch = setInterval(() => {
		quiet = frames === seen ? quiet + 1 : 0;
		seen = frames;
		if (quiet === looksWithoutSound || track?.readyState === 'ended') gone();
	}, lookMs);
	context.createMediaStreamSource(input.value).connect(tap);
	await context.resume();
	return {
		ok: true,
		value: {
			name,
			hearsRoom: true,
			tellsGenerator: false,
			close: async () => {
				clearInterval(watch);
				for (const stopped of input.value.getTracks()) stopped.stop();
				await context.close();
			},
		},
	};
}
