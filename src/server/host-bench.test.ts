import { setTimeout as wait } from 'node:timers/promises';
import { afterEach, expect, test, vi } from 'vitest';
import { usualGear } from '#advice/tests/gear.ts';
import type { HostPlan } from '#wire/host-messages.ts';
import { curve, endBenches, facts, hostWith, ready, run, underWay } from '../../test/served-host.ts';

afterEach(endBenches);

test('work is begun only behind the gates of its run, and its curve is an entry of the run', async () => {
	const own = await ready();
	const leave = own.host.attach(() => undefined);
	expect(await own.begin(curve)).toMatchObject({ ok: true });
	expect(await own.begin(curve)).toMatchObject({ ok: false, words: expect.stringContaining('at work already') });
	expect(await own.ended()).toEqual({ isDone: true, words: 'Done: 1 curve in the run.' });
	leave();
	expect(own.isOn()).toBe(false);
	const { sweeps } = await own.state();
	expect(sweeps).toMatchObject([{ role: 'base' }]);
	expect(sweeps[0]?.points.length).toBeGreaterThan(45);
	expect(own.host.state.work?.done).toBe(1);
	expect(own.lines).not.toContain('*RST');
});

test('while the instruments write a run nothing else is put into it; afterwards it is', async () => {
	const own = await ready();
	const leave = own.host.attach(() => undefined);
	await own.begin(curve);
	await underWay(own);
	const entry = { id: 'typed', run, order: 5, atMs: 0, what: { kind: 'note', text: 'typed meanwhile' } };
	const send = () =>
		own.app.request(`/api/runs/${run}/entries`, {
			method: 'POST',
			headers: { host: '127.0.0.1:1', 'Content-Type': 'application/json' },
			body: JSON.stringify({ entries: [entry] }),
		});
	const refused = await send();
	expect(refused.status).toBe(409);
	expect(((await refused.json()) as { fault: string }).fault).toContain('as soon as they are done');
	own.host.act({ act: 'abort' });
	await own.ended();
	leave();
	expect((await send()).status).toBe(200);
	expect((await own.state()).notes).toEqual(['typed meanwhile']);
});

test('a page that goes away for too long has the output off and the work left; one that comes back in time has not', async () => {
	const own = await ready({ awayMs: 150, lineMs: 10 });
	const leave = own.host.attach(() => undefined);
	await own.begin({ ...curve, adjusters: ['if1-primary', 'if2-primary'] });
	await underWay(own);
	expect(own.isOn()).toBe(true);
	leave();
	await wait(50);
	const again = own.host.attach(() => undefined);
	await wait(200);
	expect(own.host.state.work?.end).toBe(null);
	again();
	expect((await own.ended()).words).toMatch(/nobody was at the page for 0.15 s/);
	expect(own.isOn()).toBe(false);
	expect((await own.state()).sweeps).toEqual([]);
});

test('the end of the program switches the output off and ends the work', async () => {
	const own = await ready();
	own.host.attach(() => undefined);
	await own.begin(curve);
	await underWay(own);
	expect(own.isOn()).toBe(true);
	expect(await own.host.stop()).toBe('off');
	expect(own.isOn()).toBe(false);
	expect(own.host.state.work?.end?.words).toContain('the program was stopped');
	expect(await own.begin(curve)).toMatchObject({ ok: false });
});

test('a pause has the output off, and the work goes on where it was', async () => {
	const own = await ready();
	own.host.attach(() => undefined);
	await own.begin(curve);
	await underWay(own);
	own.host.act({ act: 'pause' });
	await vi.waitFor(() => expect(own.host.state.work?.stands).toBe('paused'));
	expect(own.isOn()).toBe(false);
	expect(own.host.state.output).toBe('off');
	const before = own.lines.length;
	await wait(100);
	expect(own.lines).toHaveLength(before);
	own.host.act({ act: 'go on' });
	expect(await own.ended()).toMatchObject({ isDone: true });
	expect((await own.state()).sweeps).toHaveLength(1);
});

test('an abort has the output off at once, and nothing but that is sent after it', async () => {
	const own = await ready();
	own.host.attach(() => undefined);
	await own.begin(curve);
	await underWay(own);
	const before = own.lines.length;
	own.host.act({ act: 'abort' });
	expect((await own.ended()).words).toBe('Left. What was read is kept.');
	expect(own.isOn()).toBe(false);
	// A reading that was out is answered first; then the output goes off.
	const after = own.lines.slice(before).filter((line) => !/^(SYST:ERR\?|\*OPC\?|MEAS)/.test(line));
	expect(after.length).toBeGreaterThan(0);
	expect(after.every((line) => line === 'OUTP:STAT OFF' || line.startsWith('SOUR:'))).toBe(true);
	expect(after.filter((line) => line.startsWith('SOUR:')).length).toBeLessThan(2);
});

test('on a real set the person sets the pointer and turns the screw, the output off meanwhile', async () => {
	const own = await ready({ identity: 'MAKER,MODEL,0,1' });
	own.host.attach(() => undefined);
	await own.begin({ ...curve, adjusters: ['if2-primary', 'if1-primary'] });
	const asked = () =>
		vi.waitFor(
			() => {
				const question = own.host.state.work?.question;
				if (!question) throw new Error('nothing asked');
				return question;
			},
			{ timeout: 20_000, interval: 5 },
		);
	own.panel.line('HAND:LEAD GRID');
	const first = await asked();
	expect(first.words).toContain('by an eighth at most');
	expect(first.care).toContain('Insulated tool');
	expect(own.host.state.work?.stands).toBe('asking');
	expect(own.isOn()).toBe(false);
	expect(own.host.act({ act: 'answer', question: first.id, answer: 'A whole turn' })).toBe(false);
	own.set.turn('if2-primary', -1 / 8);
	expect(own.host.act({ act: 'answer', question: first.id, answer: 'Counter-clockwise, 1/8' })).toBe(true);
	const second = await vi.waitFor(
		async () => {
			const question = await asked();
			expect(question.id).not.toBe(first.id);
			return question;
		},
		{ timeout: 20_000, interval: 5 },
	);
	own.host.act({ act: 'answer', question: second.id, answer: 'Left as it is' });
	expect(await own.ended()).toEqual({ isDone: true, words: 'Done: 2 curves in the run.' });
	const { turns, sweeps } = await own.state();
	expect(turns).toMatchObject([{ adjuster: 'if2-primary', eighths: -1 }]);
	expect(sweeps.map(({ role, adjuster }) => [role, adjuster])).toEqual([
		['base', null],
		['nudge', 'if2-primary'],
	]);
});

test('tests and dial are read by themselves into the run that names their gear', async () => {
	const own = await hostWith();
	own.host.attach(() => undefined);
	const plan: HostPlan = { kind: 'tests', moment: 'before', tests: ['sensitivity'] };
	expect(await own.begin(plan)).toMatchObject({ ok: false, words: expect.stringContaining('gear') });
	await own.bench.keepTestGear(usualGear(facts, 'before'));
	const dial: HostPlan = { kind: 'dial', band: facts.bands[0]?.id ?? '', marksHz: [600e3, 1400e3] };
	for (const work of [plan, dial]) {
		const refused = await own.begin(work);
		if (!refused.ok) await own.pass(/answered for (.+): nothing/.exec(refused.words)?.[1] ?? '');
		if (!refused.ok) expect(await own.begin(work)).toMatchObject({ ok: true });
		expect(await own.ended()).toMatchObject({ isDone: true });
	}
	const { testReadings, dial: read } = await own.state();
	expect(testReadings.map(({ ask }) => ask)).toEqual([
		'sensitivity 1000 kc',
		'output doubled',
		'sensitivity 600 kc',
		'sensitivity 1400 kc',
	]);
	expect(read.readings.map(({ reading }) => reading.dialHz)).toEqual([600e3, 1400e3]);
});

test('a generator that does not answer any more may still be on, and is told so until the person has switched it off', async () => {
	const own = await ready();
	own.host.attach(() => undefined);
	await own.begin(curve);
	await underWay(own);
	await own.cut();
	await vi.waitFor(() => expect(own.host.state.output).toBe('may be on'), { timeout: 10_000 });
	expect(own.host.state.work?.end).toBe(null);
	own.host.act({ act: 'is off' });
	expect((await own.ended()).words).toContain('What was read is kept');
}, 30_000);

const setting = { frequencyHz: 455e3, levelV: 1e-3, toneHz: 400, depth: 0.3 };

test('the generator is set for a step of the bench, asks before it rises far, and is off when it is told, before other work, and when nobody looks on', async () => {
	const own = await ready({ awayMs: 150 });
	const leave = own.host.attach(() => undefined);
	const set = (change: Partial<typeof setting> = {}, isAgreed = false) =>
		own.host.set({ generator: own.instrument, setting: { ...setting, ...change }, isAgreed });
	expect(await set()).toEqual({ ok: true, value: null });
	expect(own.isOn()).toBe(true);
	expect(own.host.state).toMatchObject({ output: 'on', work: null, set: setting });
	expect(own.panel.line('FREQ?').reply).toBe('455000.0');

	const asked = await set({ levelV: 10e-3 });
	expect(asked).toMatchObject({ ok: true, value: expect.stringContaining('20 dB more than 1 mV') });
	expect(own.host.state.set?.levelV).toBe(1e-3);
	expect(own.set.state.levelV).toBeCloseTo(1e-3, 6);
	expect(await set({ levelV: 10e-3 }, true)).toEqual({ ok: true, value: null });
	expect(own.set.state.levelV).toBeCloseTo(10e-3, 5);
	expect(await set({ frequencyHz: 5e9 })).toMatchObject({
		ok: false,
		words: expect.stringContaining('nothing was sent'),
	});

	expect(await own.begin(curve)).toMatchObject({ ok: false, words: expect.stringContaining('switch its output off') });
	own.host.act({ act: 'off' });
	await vi.waitFor(() => expect(own.host.state.output).toBe('off'));
	expect(own.isOn()).toBe(false);
	await set();
	leave();
	// The instrument is off a moment before its answer has come.
	await vi.waitFor(() => expect(own.host.state).toMatchObject({ output: 'off', set: null }), { timeout: 5000 });
	expect(own.isOn()).toBe(false);
});

test('a program that stops leaves a generator off that the bench had set', async () => {
	const own = await ready();
	own.host.attach(() => undefined);
	await own.host.set({ generator: own.instrument, setting, isAgreed: false });
	expect(own.isOn()).toBe(true);
	expect(await own.host.stop()).toBe('off');
	expect(own.isOn()).toBe(false);
});

test('a program that was killed is found to have left the generator on, and the next one sees it off', async () => {
	const own = await ready();
	own.host.attach(() => undefined);
	expect(await own.drawer.leftOn()).toBe(null);
	await own.host.set({ generator: own.instrument, setting, isAgreed: false });
	expect(await own.drawer.leftOn()).toEqual(own.instrument);
	own.host.act({ act: 'off' });
	await vi.waitFor(async () => expect(await own.drawer.leftOn()).toBe(null));

	// Killed: nothing was told to the generator; the mark stands.
	own.panel.line('OUTP ON');
	await own.drawer.markOn(own.instrument);
	const left = await own.drawer.leftOn();
	if (!left) throw new Error('not kept');
	own.host.recover(left);
	await vi.waitFor(() => expect(own.isOn()).toBe(false));
	await vi.waitFor(async () => expect(await own.drawer.leftOn()).toBe(null));
	expect(own.host.state.output).toBe('off');

	// Work by itself is marked too, and seen off at its end.
	await own.begin(curve);
	expect(await own.drawer.leftOn()).toEqual(own.instrument);
	own.host.act({ act: 'abort' });
	await own.ended();
	expect(await own.drawer.leftOn()).toBe(null);
});

test('the instruments are kept by the program, whoever asks', async () => {
	const own = await hostWith();
	const put = (which: string, body: unknown) =>
		own.app.request(`/api/instruments/${which}`, {
			method: 'PUT',
			headers: { host: '127.0.0.1:1', 'Content-Type': 'application/json' },
			body: JSON.stringify(body),
		});
	expect((await put('generator', own.instrument)).status).toBe(200);
	expect((await put('scope', own.instrument)).status).toBe(422);
	expect((await put('meter', { place: 'x'.repeat(300), description: null })).status).toBe(422);
	const kept = await own.app.request('/api/instruments', { headers: { host: '127.0.0.1:1' } });
	expect(await kept.json()).toEqual({ generator: own.instrument, meter: { place: '', description: null } });
});

test('of two that begin work at once one is told that the instruments are at work, and one curve is written', async () => {
	const own = await ready({ mark: { markOn: () => wait(50) } });
	own.host.attach(() => undefined);
	const begun = await Promise.all([own.begin(curve), own.begin(curve)]);
	expect(begun.map(({ ok }) => ok)).toEqual([true, false]);
	await own.ended();
	expect((await own.state()).sweeps).toHaveLength(1);
});

test('a generator that is told off while it is being set is off, and nothing says that it may be on', async () => {
	const markOn = async () => void own.host.act({ act: 'off' });
	const own = await ready({ mark: { markOn } });
	own.host.attach(() => undefined);
	const setting = { frequencyHz: 455e3, levelV: 1e-3, toneHz: 400, depth: 0.3 };
	expect(await own.host.set({ generator: own.instrument, setting, isAgreed: false })).toMatchObject({ ok: false });
	expect(own.isOn()).toBe(false);
	expect(own.host.state).toMatchObject({ output: 'off', set: null });
});

test('work ends and the program goes on where it cannot be kept that the output is off', async () => {
	const full = Object.assign(new Error('database or disk is full'), { code: 'SQLITE_FULL' });
	const own = await ready({ mark: { seenOff: () => Promise.reject(full) } });
	own.host.attach(() => undefined);
	await own.begin(curve);
	await underWay(own);
	own.host.act({ act: 'abort' });
	expect((await own.ended()).words).toBe('Left. What was read is kept.');
	own.host.act({ act: 'is off' });
	await wait(20);
	expect(own.host.isBusy).toBe(false);
});
