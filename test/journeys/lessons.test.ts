import { afterEach, expect, test } from 'vitest';
import { LessonHand } from './lesson-hand.ts';
import { openPage } from './open-page.ts';

const closing: (() => Promise<void>)[] = [];
afterEach(async () => {
	for (const close of closing.splice(0)) await close();
});

/** The IF screws from the last transformer to the first. */
const backToFront = ['T2 sec.', 'T2 pri.', 'T1 sec.', 'T1 pri.'] as const;

async function taught() {
	const { page, program, faults, close } = await openPage();
	closing.push(close);
	await page.clock.install();
	return { page, faults, hand: new LessonHand(page, program.address) };
}

test('lesson "The trap is set for least": to the null and back to it as the coach says', async () => {
	const { faults, hand } = await taught();
	await hand.begin('The trap is set for least');
	expect(await hand.check()).toMatch(/^Not yet\. The worst screw is 4\.8 eighths/);
	await hand.turnAsTold('Trap');
	expect(await hand.check()).toMatch(/^Done\./);
	expect(faults).toEqual([]);
}, 300_000);

test('lesson "The high end": oscillator, then antenna, as the coach says, until the program is content', async () => {
	const { faults, hand } = await taught();
	await hand.begin('The high end: oscillator first');
	expect(await hand.check()).toMatch(/^Not yet\..* The worst place of the dial is \d\d\.\d kc off/);
	await hand.turnAsTold('C2 osc.');
	await hand.finishStep();
	await hand.beginStep();
	await hand.turnAsTold('C1 ant.');
	expect(await hand.check()).toMatch(/^Done\./);
	expect(faults).toEqual([]);
}, 300_000);

test('lesson "The low end": high, low and high again, in the order that the page proposes', async () => {
	const { faults, hand } = await taught();
	await hand.begin('The low end, and back to the high');
	for (const name of ['C2 osc.', 'C1 ant.', 'C3 pad']) {
		await hand.turnAsTold(name);
		await hand.finishStep();
		await hand.beginStep();
	}
	expect(await hand.check()).toMatch(/^Not yet\./);
	await hand.turnAsTold('C2 osc.');
	expect(await hand.check()).toMatch(/^Done\./);
	expect(faults).toEqual([]);
}, 300_000);

test('lesson "The way home": both turns are taken back by count alone, and nothing counts as a mistake', async () => {
	const { page, faults, hand } = await taught();
	await hand.begin('The way home');
	expect(await hand.check()).toMatch(/^Not yet\. The worst screw is 3\.0 eighths/);
	for (const [name, turns] of [
		['T1 pri.', -3 / 8],
		['T2 sec.', 2 / 8],
	] as const) {
		await hand.take(name);
		await hand.turn(name, turns);
		await hand.putDown(name);
	}
	expect(await hand.check()).toMatch(/^Done\./);
	await page.clock.resume();
	await page.getByRole('button', { name: 'Show the truth' }).click();
	await page.getByRole('heading', { name: 'What could have broken something' }).waitFor();
	const told = await page.locator('#practice-check li').allTextContents();
	// The hand of this test reads no cautions; nothing else is held against it.
	expect(told.filter((words) => !words.startsWith('Cautions were confirmed'))).toEqual([]);
	if (process.env.PEAKWRIGHT_SHOTS)
		await page.screenshot({ path: `${process.env.PEAKWRIGHT_SHOTS}/way-home.png`, fullPage: true });
	expect(faults).toEqual([]);
}, 300_000);

test('lesson "A peak that is blunt": the needle tells which screw changes least', async () => {
	const { page, faults, hand } = await taught();
	await hand.begin('A peak that is blunt');
	const falls: { name: string; fallenDb: number }[] = [];
	for (const name of backToFront) {
		await hand.take(name);
		await hand.turn(name, 1 / 8);
		await hand.look();
		const above = await hand.fallenDb();
		await hand.turn(name, -2 / 8);
		await hand.look();
		falls.push({ name, fallenDb: above + (await hand.fallenDb()) });
		await hand.turn(name, 1 / 8);
		await hand.putDown(name);
	}
	const blunt = falls.reduce((least, one) => (one.fallenDb < least.fallenDb ? one : least));
	await page.getByLabel('Which winding is damped?').selectOption(blunt.name);
	expect(await hand.check()).toMatch(/^Done\. Right\./);
	expect(faults).toEqual([]);
}, 300_000);

test('lesson "Why the passes are repeated": pass upon pass from the last transformer to the first', async () => {
	const { faults, hand } = await taught();
	await hand.begin('Why the passes are repeated');
	let said = await hand.check();
	expect(said).toMatch(/^Not yet\./);
	for (let pass = 1; pass <= 4 && !said.startsWith('Done.'); pass++) {
		if (pass > 1) {
			await hand.finishStep();
			await hand.beginStep();
		}
		for (const name of backToFront) await hand.turnAsTold(name);
		said = await hand.check();
	}
	expect(said).toMatch(/^Done\./);
	expect(faults).toEqual([]);
}, 600_000);

test('lesson "When alignment gives nothing back": no answer counts before every IF screw was tried', async () => {
	const { page, faults, hand } = await taught();
	await hand.begin('When alignment gives nothing back');
	await page.getByLabel('What is wrong?').selectOption('A tube is weak');
	expect(await hand.check()).toMatch(/^Not yet\. 4 of the 4 IF screws were not tried yet\./);
	for (const name of backToFront) await hand.turnAsTold(name);
	expect(await hand.check()).toMatch(/^Done\. Right\./);
	expect(faults).toEqual([]);
}, 600_000);

test('lesson "Why a core has two peaks": whole turns back, through the weak place, to the outer peak', async () => {
	const { faults, hand } = await taught();
	await hand.begin('Why a core has two peaks');
	expect(await hand.check()).toMatch(/^Not yet\..* The core is still beyond the middle\./);
	await hand.take('T1 sec.');
	const readDb = [await hand.readsDb()];
	// Past the weakest place it grows again, until a turn too many.
	const isPast = (): boolean => {
		const weakest = readDb.indexOf(Math.min(...readDb));
		return weakest > 0 && readDb.slice(weakest).some((one, k, grown) => k > 0 && one < (grown[k - 1] as number));
	};
	while (!isPast() && readDb.length < 12) {
		await hand.turn('T1 sec.', -1);
		readDb.push(await hand.readsDb());
	}
	await hand.turn('T1 sec.', 1);
	await hand.climb('T1 sec.');
	await hand.putDown('T1 sec.');
	expect(await hand.check()).toMatch(/^Done\./);
	expect(faults).toEqual([]);
}, 600_000);
