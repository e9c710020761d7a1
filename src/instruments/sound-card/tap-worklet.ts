/** Runs beside the sound: gathers the first channel into frames of a tenth of a second and hands them on, each with the time of the sound's own clock at which it was full. */
declare const sampleRate: number;
declare const currentTime: number;
declare class AudioWorkletProcessor {
	readonly port: MessagePort;
}
declare function registerProcessor(name: string, processor: new () => AudioWorkletProcessor): void;

class Tap extends AudioWorkletProcessor {
	#frame = new Float32Array(Math.round(sampleRate / 10));
	#filled = 0;

	process([input]: Float32Array[][]): boolean {
		const channel = input?.[0];
		if (!channel) return true;
		for (const sample of channel) {
			this.#frame[this.#filled++] = sample;
			if (this.#filled === this.#frame.length) {
				this.port.postMessage({ samples: this.#frame, endS: currentTime });
				this.#frame = new Float32Array(this.#frame.length);
				this.#filled = 0;
			}
		}
		return true;
	}
}

registerProcessor('tap', Tap);
