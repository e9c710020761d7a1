/** Listens off the page's own thread: keeps the latest seconds of a sound, of the room or of a simulated set, and says what is in them. */
import { SetStream } from '#core/receiver/set-stream.ts';
import type { SetSignal } from '#core/receiver/signal.ts';
import type { SetValues } from '#core/receiver/values.ts';
import { type Heard, listenTo } from '#core/signal/listener.ts';

export type ToEar =
	| { readonly kind: 'begin'; readonly sampleRateHz: number; readonly toneHz: number }
	| { readonly kind: 'frame'; readonly samples: Float32Array }
	/** A second more of a simulated set. */
	| { readonly kind: 'set'; readonly values: SetValues; readonly signal: SetSignal };
export interface FromEar {
	readonly heard: Heard;
	/** Of what was heard. */
	readonly lastedS: number;
}

/** Long enough for a slow beat and for some clicks. */
const mostS = 6;
const leastS = 3;
/** AVC of a simulated set comes to rest in this. */
const settleS = 0.5;
/** Volts of a simulated set's voice coil at full scale: the most that a small output tube gives (chosen). */
const fullScaleV = 3;

let rateHz = 48e3;
let toneHz = 400;
let latest = new Float32Array(0);
/** Samples since the sound was last judged. */
let fresh = 0;
let stream: SetStream | null = null;

function hear(samples: Float32Array): void {
	const whole = new Float32Array(Math.min(latest.length + samples.length, mostS * rateHz));
	const kept = whole.length - samples.length;
	whole.set(latest.subarray(latest.length - kept));
	whole.set(samples, kept);
	latest = whole;
	fresh += samples.length;
	if (latest.length < leastS * rateHz || fresh < rateHz) return;
	fresh = 0;
	postMessage({ heard: listenTo(latest, rateHz, toneHz), lastedS: latest.length / rateHz } satisfies FromEar);
}

function hearSet(values: SetValues, signal: SetSignal): void {
	if (stream) stream.change(values, [signal]);
	else {
		stream = new SetStream(values, [signal], rateHz, 1);
		stream.fill(new Float32Array(settleS * rateHz));
	}
	const second = new Float32Array(rateHz);
	stream.fill(second);
	hear(second.map((volts) => volts / fullScaleV));
}

addEventListener('message', ({ data }: MessageEvent<ToEar>) => {
	if (data.kind === 'begin') {
		({ sampleRateHz: rateHz, toneHz } = data);
		latest = new Float32Array(0);
		fresh = 0;
		stream = null;
	} else if (data.kind === 'frame') hear(data.samples);
	else hearSet(data.values, data.signal);
});
