import type { Page } from 'playwright-core';
import { afterEach, expect, test } from 'vitest';
import { axeFaults, beginIfStep, openPage } from './open-page.ts';

const closing: (() => Promise<void>)[] = [];
afterEach(async () => {
	for (const close of closing.splice(0)) await close();
});

/** Gives more signal, as the coach asks, until the virtual set is read. */
async function readable(page: Page): Promise<void> {
	const coach = page.locator('.coach');
	await expect
		.poll(async () => {
			const words = await coach.textContent();
			if (words?.includes('Too weak')) await page.getByRole('button', { name: '+ 6 dB' }).click();
			return words;
		})
		.toMatch(/Settled/);
}

/** Keeps what the page gives to the browser's voice: there are no voices where tests run. */
async function tapVoice(page: Page): Promise<() => Promise<string[]>> {
	await page.evaluate(() => {
		const said: string[] = [];
		Object.assign(globalThis, { said });
		speechSynthesis.speak = (utterance) => {
			said.push(utterance.text);
			utterance.onend?.(new Event('end') as SpeechSynthesisEvent);
		};
	});
	return () => page.evaluate(() => (globalThis as unknown as { said: string[] }).said);
}

test('an adjuster of the virtual set is turned by keys, read live and told by voice, and stays where it was left over a reload', async () => {
	const { page, program, faults, close } = await openPage();
	closing.push(close);
	await beginIfStep(page, program.address);
	await page.getByRole('button', { name: 'T2 sec.' }).click();
	const coach = page.locator('.coach');
	await readable(page);
	const said = await tapVoice(page);
	await page.getByText('By ear, needle, view').click();
	await page.getByRole('checkbox', { name: 'Speak the coach' }).check();
	expect(await axeFaults(page)).toEqual([]);
	await page.setViewportSize({ width: 390, height: 844 });
	expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
	await page.setViewportSize({ width: 1280, height: 800 });

	// The one key begins the turn; it is turned one way until the coach says that the level falls, by the keyboard alone.
	await page.keyboard.press(' ');
	await expect.poll(() => coach.textContent()).toMatch(/Turn T2|best|Near/);
	const more = page.getByRole('button', { name: '+ 1/8' });
	await more.focus();
	await expect
		.poll(
			async () => {
				await page.keyboard.press('Enter');
				return coach.textContent();
			},
			{ timeout: 20_000, interval: 700 },
		)
		.toContain('Falling: turn T2 sec. the other way');
	expect((await said()).at(-1)).toMatch(/^(Past it. Turn back to the best|The other way)\.$/);

	// A changed generator level is no fall: the coach begins anew, and the record says so.
	await page.getByRole('button', { name: '\u2212 6 dB' }).click();
	await expect.poll(() => coach.textContent()).not.toContain('Falling');
	await page.getByRole('button', { name: 'T2 sec. is set' }).click();
	await page.getByText('Settled. Press the big key.').waitFor();
	await page.keyboard.press(' ');
	// The page saw how far the simulated screw came, and proposes it.
	await page.getByRole('button', { name: /^Count \+\d+\/8$/ }).click();
	// The meter stays chosen for the next adjuster.
	await page.getByRole('button', { name: 'T2 pri.' }).click();
	await page.getByText('T2 pri.: hands off until the level stands still.').waitFor();
	expect(await page.getByRole('combobox', { name: 'Meter' }).inputValue()).toBe('virtual set');

	const keptTurns = () =>
		page.evaluate(() => Object.entries(localStorage).find(([key]) => key.startsWith('virtual-set '))?.[1]);
	const left = await keptTurns();
	expect(left).toContain('if2-secondary');
	await page.goto(`${program.address}/#/record/thistlemoor-tm-517`);
	await page.reload();
	expect(await keptTurns()).toBe(left);
	await page.getByRole('button', { name: /^Show its/ }).click();
	await page
		.getByText(/generator level \d/)
		.last()
		.waitFor();
	expect(faults).toEqual([]);
});

test('the hand is measured in ten seconds, and a step of 6 dB tells whether the signal is too strong', async () => {
	const { page, program, faults, close } = await openPage();
	closing.push(close);
	await beginIfStep(page, program.address);
	await page.getByRole('button', { name: 'T2 sec.' }).click();
	await readable(page);
	await page.getByRole('button', { name: 'Measure the hand' }).click();
	await page.getByText('Enough. Rest the tool on T2 sec.').waitFor();
	await page.keyboard.press(' ');
	await page.getByText('Enough. Press the big key.').waitFor();
	await page.keyboard.press(' ');
	// Nothing touches a virtual set, so that the fall that is told stays the least, 0.3 dB.
	await page.getByText('The hand moves the level by 0.0 dB. A fall of 0.3 dB will be told.').waitFor();

	// Much too strong: AVC and the output stage level it. The words say so, whatever the seed.
	await page.getByRole('button', { name: '+ 20 dB' }).click();
	await page.getByRole('button', { name: '+ 20 dB' }).click();
	await page.getByRole('button', { name: '6 dB step' }).click();
	await page.getByText('Settled. Press the big key, then make').waitFor();
	await page.keyboard.press(' ');
	await page.getByRole('button', { name: '\u2212 6 dB' }).click();
	await page.getByText('When the generator is 6 dB weaker').waitFor();
	await page.getByRole('button', { name: 'Read after the step' }).click();
	await page.getByText(/The signal is too strong|AVC levels the signal altogether/).waitFor();
	expect(await axeFaults(page)).toEqual([]);
	expect(faults).toEqual([]);
});

/** What the page gives to the loudspeaker now, volts at full scale, and its tone: watched at the last node before it. */
async function tapLoudspeaker(page: Page): Promise<void> {
	await page.addInitScript(() => {
		const connect = AudioNode.prototype.connect as (this: AudioNode, to: AudioNode) => AudioNode;
		AudioNode.prototype.connect = function (this: AudioNode, to: AudioNode | AudioParam) {
			if (to instanceof AudioDestinationNode) {
				const analyser = new AnalyserNode(to.context as AudioContext, { fftSize: 8192 });
				connect.call(this, analyser);
				(globalThis as unknown as { heard: AnalyserNode }).heard = analyser;
			}
			return connect.call(this, to as AudioNode);
		} as AudioNode['connect'];
	});
}

/** Strongest frequency and largest sample of what is heard. */
async function heard(page: Page): Promise<{ strongestHz: number; peak: number }> {
	return page.evaluate(() => {
		const analyser = (globalThis as unknown as { heard?: AnalyserNode }).heard;
		if (!analyser) return { strongestHz: 0, peak: 0 };
		const bins = new Float32Array(analyser.frequencyBinCount);
		analyser.getFloatFrequencyData(bins);
		const samples = new Float32Array(analyser.fftSize);
		analyser.getFloatTimeDomainData(samples);
		const strongest = bins.indexOf(bins.reduce((most, bin) => Math.max(most, bin), Number.NEGATIVE_INFINITY));
		return {
			strongestHz: (strongest * analyser.context.sampleRate) / analyser.fftSize,
			peak: samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0),
		};
	});
}

test('the virtual set is heard while its screw is dragged, and takes a clip across a winding', async () => {
	const { page, program, faults, close } = await openPage();
	closing.push(close);
	await tapLoudspeaker(page);
	await page.reload();
	await beginIfStep(page, program.address);
	await page.getByRole('button', { name: 'T2 sec.' }).click();
	await readable(page);
	await page.getByRole('button', { name: 'Hear the set' }).click();
	await expect.poll(async () => (await heard(page)).peak).toBeGreaterThan(0.001);
	// 400 c of the generator, to the width of a bin.
	await expect.poll(async () => Math.abs((await heard(page)).strongestHz - 400)).toBeLessThan(8);

	const screw = page.getByRole('slider', { name: 'T2 sec., screw' });
	const box = await screw.boundingBox();
	if (!box) throw new Error('no screw on the page');
	const middle = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
	await page.mouse.move(middle.x + 50, middle.y);
	await page.mouse.down();
	await page.mouse.move(middle.x + 40, middle.y + 40, { steps: 4 });
	await page.mouse.up();
	// An eighth of a turn: from the right to half-way down.
	expect(Number(await screw.getAttribute('aria-valuenow'))).toBeCloseTo(8, 0);

	await page.getByText('Generator, volume and clips').click();
	await page.getByRole('textbox', { name: 'Clip a part' }).fill('2k2');
	await page.getByRole('button', { name: 'Clip', exact: true }).click();
	await page.getByText('across T1 pri.').waitFor();
	await page.getByRole('button', { name: 'Take it off' }).click();
	await page.getByRole('textbox', { name: 'Clip a part' }).fill('much');
	await page.getByRole('button', { name: 'Clip', exact: true }).click();
	await page.getByText('"much" is neither a resistance nor a capacitance').waitFor();
	expect(await axeFaults(page)).toEqual([]);
	await page.getByRole('button', { name: 'Silence' }).click();
	expect(faults).toEqual([]);
});
