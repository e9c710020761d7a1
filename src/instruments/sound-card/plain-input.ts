import type { Parsed } from '#record/parsed.ts';

/** Processing that a browser puts between microphone and page; it would change every level. */
const processing = ['echoCancellation', 'noiseSuppression', 'autoGainControl'] as const;

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
