import type { Page } from 'playwright-core';

/** Frames given between two looks at what the program has kept, and how many may be under way to it. */
const batch = 20;
const mostUnderWay = 200;

/**
 * Puts a sound input into a page that gives so many frames of a steady tone, a tenth of a second each, as fast as the program keeps what is read from them.
 * From the frame on everything is the page's own: level, coach, needle, outbox. The browser's sound and the gathering of frames are left out.
 */
export async function hurrySound(page: Page, frames: number): Promise<void> {
	// tsx gives functions their names back by a helper that the page does not have.
	await page.addInitScript('globalThis.__name = (named) => named;');
	await page.addInitScript(
		({ frames, batch, mostUnderWay }) => {
			const sampleRate = 48_000;
			const tone = Float32Array.from({ length: sampleRate / 10 }, (_, k) =>
				Math.fround(0.1 * Math.sin((2 * Math.PI * 400 * k) / sampleRate)),
			);
			const pause = (ms: number) => new Promise((next) => setTimeout(next, ms));
			const kept = async (): Promise<number> => {
				const { runs } = (await (await fetch('/api/runs')).json()) as { runs: { entries: number }[] };
				return runs[0]?.entries ?? 0;
			};
			const port: { onmessage: ((event: { data: unknown }) => void) | null } = { onmessage: null };
			let given = 0;
			const give = (): void => {
				given++;
				port.onmessage?.({ data: { samples: tone.slice(), endS: 0 } });
			};
			const play = async (): Promise<void> => {
				const before = await kept();
				// An input that gives nothing for two seconds is taken for gone: it gives on while the program is waited for.
				const heartbeat = setInterval(give, 500);
				while (given < frames) {
					if (given - (await kept()) + before > mostUnderWay) {
						await pause(100);
						continue;
					}
					for (let k = 0; k < batch; k++) {
						give();
						await pause(0);
					}
				}
				clearInterval(heartbeat);
				Object.assign(globalThis, { isPlayed: true });
			};
			Object.assign(globalThis, {
				AudioContext: class {
					readonly sampleRate = sampleRate;
					readonly currentTime = 0;
					readonly audioWorklet = { addModule: async () => undefined };
					createMediaStreamSource() {
						return { connect: () => void play() };
					}
					async resume() {}
					async close() {
						port.onmessage = null;
					}
				},
				AudioWorkletNode: class {
					readonly port = port;
				},
			});
		},
		{ frames, batch, mostUnderWay },
	);
}

/** Whether all frames have been given. */
export const isPlayed = (page: Page): Promise<boolean> =>
	page.evaluate(() => (globalThis as { isPlayed?: boolean }).isPlayed === true);
