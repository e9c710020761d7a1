import { afterEach, expect, test } from 'vitest';
import { genericInstrument, type InstrumentDescription } from '#record/instrument-description.ts';
import { type ScriptedInstrument, scriptedInstrument } from '../../../test/scripted-instrument.ts';
import { instrumentAddress } from './link.ts';
import { ScpiClient } from './scpi-client.ts';
import { ScpiGenerator } from './scpi-generator.ts';
import { ScpiMeter } from './scpi-meter.ts';
import { ScpiSession } from './scpi-session.ts';

const open: { stop(): Promise<void> }[] = [];
afterEach(async () => {
	for (const { stop } of open.splice(0)) await stop();
});

async function instrument(...script: Parameters<typeof scriptedInstrument>): Promise<ScriptedInstrument> {
	const made = await scriptedInstrument(...script);
	open.push(made);
	return made;
}

const fast: InstrumentDescription = { ...genericInstrument, replyWithinMs: 2000 };

function sessionWith({ port }: { port: number }, description = fast): ScpiSession {
	const session = new ScpiSession({ kind: 'network', host: '127.0.0.1', port }, description);
	open.push({ stop: async () => session.close() });
	return session;
}

/** What a sound instrument answers; error numbers and their order as [scpi-1999] 21.8 has them. */
const sound = (line: string): string | null => {
	if (line === '*IDN?') return 'MAKER,MODEL,0,1';
	if (line === '*OPC?') return '1';
	if (line === 'SYST:ERR?') return '0,"No error"';
	if (line === 'MEAS:VOLT:AC?') return '+2.500E-01';
	return null;
};
const soundly = (line: string, socket: { write(text: string): unknown }): void => {
	const answer = sound(line);
	if (answer !== null) socket.write(`${answer}\n`);
};

const generatorOf = (session: ScpiSession): ScpiGenerator =>
	new ScpiGenerator(session, fast.generator as NonNullable<typeof fast.generator>, 0);

test('a setting is sent once the instrument is known, waited for, and its errors read', async () => {
	const made = await instrument(soundly);
	const generator = generatorOf(sessionWith(made));
	expect(await generator.setFrequency(455e3)).toEqual({ kind: 'done', sent: 455e3 });
	expect(made.heard).toEqual(['*IDN?', 'SYST:ERR?', 'SOUR:FREQ:CW 455000', '*OPC?', 'SYST:ERR?']);
	expect(made.heard).not.toContain('*RST');
});

test('what lies outside the range is not sent', async () => {
	const made = await instrument(soundly);
	const generator = generatorOf(sessionWith(made));
	expect(await generator.setFrequency(2e9)).toMatchObject({ kind: 'refused' });
	expect(await generator.modulate(400, 1.2)).toMatchObject({ kind: 'refused' });
	expect(made.heard).toEqual([]);
});

test('the level rises by more than 10 dB only when asked', async () => {
	const made = await instrument(soundly);
	const generator = generatorOf(sessionWith(made));
	expect(await generator.setLevel(1e-3)).toEqual({ kind: 'done', sent: expect.closeTo(1e-3, 5) });
	expect(await generator.setLevel(3e-3)).toEqual({ kind: 'done', sent: expect.closeTo(3e-3, 5) });
	expect(await generator.setLevel(10e-3)).toMatchObject({ kind: 'asks' });
	expect(made.heard.filter((line) => line.includes('POW'))).toHaveLength(2);
	expect(await generator.raiseLevel(10e-3)).toEqual({ kind: 'done', sent: expect.closeTo(10e-3, 5) });
	expect(await generator.setLevel(1e-6)).toEqual({ kind: 'done', sent: expect.closeTo(1e-6, 5) });
});

test('the errors of an instrument come out in its words', async () => {
	const queue = ['-222,"Data out of range"', '-113,"Undefined header"'];
	let isSet = false;
	const made = await instrument((line, socket) => {
		if (line.startsWith('SOUR')) isSet = true;
		if (line === 'SYST:ERR?' && isSet) socket.write(`${queue.shift() ?? '+0,"No error"'}\n`);
		else soundly(line, socket);
	});
	const done = await generatorOf(sessionWith(made)).setFrequency(455e3);
	expect(done).toMatchObject({ kind: 'refused' });
	expect((done as { words: string }).words).toMatch(/-222.*-113/);
});

test('a reading is had from an instrument that is slow and sends in pieces', async () => {
	const made = await instrument((line, socket) => {
		const answer = `${sound(line)}\r\n`;
		setTimeout(() => socket.write(answer.slice(0, 3)), 20);
		setTimeout(() => socket.write(answer.slice(3)), 60);
	});
	const meter = new ScpiMeter(sessionWith(made), fast.meter as NonNullable<typeof fast.meter>, () => 1000);
	// 20 log10 0.25 = -12.041
	const reading = await meter.read();
	expect(reading).toMatchObject({ kind: 'level', trust: 'ok', reference: 'dBV', quantity: 'AC volts' });
	expect((reading as { levelDb: { value: number } }).levelDb.value).toBeCloseTo(-12.041, 3);
});

test('a connection cut in mid-line is made anew and the question asked again', async () => {
	const made = await instrument((line, socket, connection) => {
		if (line === 'MEAS:VOLT:AC?' && connection === 1) {
			socket.write('+2.5');
			setTimeout(() => socket.destroy(), 5);
		} else soundly(line, socket);
	});
	expect(await sessionWith(made).ask('MEAS:VOLT:AC?')).toEqual({ kind: 'said', text: '+2.500E-01' });
});

test('after a cut, another instrument at the same place is not spoken to', async () => {
	const made = await instrument((line, socket, connection) => {
		if (line === '*IDN?') socket.write(`MAKER,${connection},0,1\n`);
		else if (line === 'MEAS:VOLT:AC?' && connection === 1) socket.destroy();
		else soundly(line, socket);
	});
	const said = await sessionWith(made).ask('MEAS:VOLT:AC?');
	expect(said).toMatchObject({ kind: 'refused' });
	expect((said as { words: string }).words).toContain('MAKER,2,0,1');
});

async function failure(script: Parameters<typeof scriptedInstrument>[0], replyWithinMs = 5000): Promise<string> {
	const { port } = await instrument(script);
	const client = new ScpiClient({ kind: 'network', host: '127.0.0.1', port }, { terminator: 'LF', replyWithinMs });
	await client.open();
	const exchange = await client.ask('*IDN?');
	client.close();
	return exchange.kind === 'failed' ? `${exchange.why}: ${exchange.words}` : exchange.kind;
}

test('bad instruments fail with what to do about them', async () => {
	expect(await failure(() => undefined, 150)).toMatch(/^no answer: .*within 150 ms$/);
	expect(await failure((_, socket) => socket.write('MAKER,MODEL,0,1\r'), 150)).toMatch(/set "terminator" to "CR"/);
	expect(await failure((_, socket) => socket.write(Buffer.from([0xff, 0x00, 0x13])))).toMatch(/^garbled: .*baud rate/);
	expect(await failure((_, socket) => socket.write('half a li'), 150)).toMatch(/began with "half a li"/);
	expect(await failure((_, socket) => socket.end('half'))).toMatch(/^cut off/);
	expect(await failure((_, socket) => socket.write(Buffer.alloc(10_000_000, 0x41)))).toMatch(
		/^garbled: .*without an end/,
	);
});

test('a late answer is never taken for the answer to the next question', async () => {
	let count = 0;
	const made = await instrument((line, socket) => {
		const answer = `${line} ${++count}\n`;
		setTimeout(() => socket.write(answer), count === 1 ? 250 : 0);
	});
	const client = new ScpiClient(
		{ kind: 'network', host: '127.0.0.1', port: made.port },
		{ terminator: 'LF', replyWithinMs: 150 },
	);
	await client.open();
	expect(await client.ask('ONE?')).toMatchObject({ kind: 'failed', why: 'no answer' });
	await client.open();
	expect(await client.ask('TWO?')).toEqual({ kind: 'line', text: 'TWO? 2' });
	client.close();
});

test('questions are asked one at a time and in order; what would wait too long is not taken', async () => {
	let isOut = false;
	const made = await instrument((line, socket) => {
		expect(isOut).toBe(false);
		isOut = true;
		setTimeout(() => {
			isOut = false;
			socket.write(`${sound(line) ?? line}\n`);
		}, 1);
	});
	const session = sessionWith(made);
	const answers = await Promise.all(Array.from({ length: 80 }, (_, k) => session.ask(`Q${k}?`)));
	const had = answers.flatMap((answer) => (answer.kind === 'said' ? [answer.text] : []));
	expect(had).toEqual(Array.from({ length: 64 }, (_, k) => `Q${k}?`));
	expect(answers.at(-1)).toMatchObject({ kind: 'failed' });
});

test('places are read as they are written', () => {
	expect(instrumentAddress('192.168.1.20', null)).toEqual({
		ok: true,
		value: { kind: 'network', host: '192.168.1.20', port: 5025 },
	});
	expect(instrumentAddress('[::1]:5555', null)).toMatchObject({ value: { host: '::1', port: 5555 } });
	expect(instrumentAddress('serial:/dev/ttyUSB0', 115200)).toEqual({
		ok: true,
		value: { kind: 'serial', path: '/dev/ttyUSB0', baud: 115200 },
	});
	for (const words of ['', 'a b', 'host:0', 'host:70000', 'serial:'])
		expect(instrumentAddress(words, null).ok).toBe(false);
});
