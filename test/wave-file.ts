import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** A 16-bit mono wave file in a folder of its own; full scale is 1. */
export function waveFile(samples: readonly number[], rateHz: number): string {
	const bytes = Buffer.alloc(44 + 2 * samples.length);
	bytes.write('RIFF');
	bytes.writeUInt32LE(bytes.length - 8, 4);
	bytes.write('WAVEfmt ', 8);
	bytes.writeUInt32LE(16, 16);
	bytes.writeUInt16LE(1, 20);
	bytes.writeUInt16LE(1, 22);
	bytes.writeUInt32LE(rateHz, 24);
	bytes.writeUInt32LE(2 * rateHz, 28);
	bytes.writeUInt16LE(2, 32);
	bytes.writeUInt16LE(16, 34);
	bytes.write('data', 36);
	bytes.writeUInt32LE(2 * samples.length, 40);
	for (const [index, sample] of samples.entries()) bytes.writeInt16LE(Math.round(32_768 * sample), 44 + 2 * index);
	const path = join(mkdtempSync(join(tmpdir(), 'peakwright-')), 'sound.wav');
	writeFileSync(path, bytes);
	return path;
}
