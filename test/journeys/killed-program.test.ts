import { expect, test } from 'vitest';
import { killedAgainAndAgain } from '../killed-program.ts';
import { scratchFolder, startProgram } from './open-page.ts';

test('killed in the middle again and again, the program loses no reading that it said it kept', async () => {
	const { acknowledged, lost, twice, outOfOrder } = await killedAgainAndAgain(4, 7);
	expect(acknowledged).toBeGreaterThan(4);
	expect({ lost, twice, outOfOrder }).toEqual({ lost: 0, twice: 0, outOfOrder: 0 });
});

test('a second program on the same data says so and leaves the first alone', async () => {
	const data = scratchFolder();
	const first = await startProgram(data);
	try {
		await expect(startProgram(data)).rejects.toThrow(/ended with 2 and said: another Peakwright already serves/);
		expect((await fetch(`${first.address}/api/sets`)).status).toBe(200);
	} finally {
		await first.end('SIGTERM');
	}
});
