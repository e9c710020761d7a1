import { execFile } from 'node:child_process';
import { connect } from 'node:net';
import { promisify } from 'node:util';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { tm517 } from '#core/receiver/designs/tm-517.ts';
import { SteadyState } from '#core/receiver/operating-point.ts';
import { tamperedSet } from '#core/receiver/truth.ts';
import { ScpiGenerator } from '#instruments/scpi/scpi-generator.ts';
import { ScpiMeter } from '#instruments/scpi/scpi-meter.ts';
import { ScpiSession } from '#instruments/scpi/scpi-session.ts';
import { virtualInstruments } from '#instruments/virtual/virtual-instruments.ts';
import { VirtualSet } from '#instruments/virtual/virtual-set.ts';
import { type GeneratorVerbs, genericInstrument, type MeterVerbs } from '#record/instrument-description.ts';
import { type PanelServer, servePanel } from './panel-server.ts';

let set: VirtualSet;
let server: PanelServer;
beforeAll(async () => {
	set = new VirtualSet(tamperedSet(tm517, 3), 3, null);
	const served = await servePanel(virtualInstruments(set, Date.now), 0);
	if (!served.ok) throw new Error(served.words);
	server = served.value;
});
afterAll(() => server.stop());

/** An SCPI client that is not ours: lxi of Debian's lxi-tools. */
async function lxi(message: string): Promise<string> {
	const args = ['scpi', '-a', '127.0.0.1', '-p', String(server.port), '-r', message];
	return (await promisify(execFile)('lxi', args)).stdout.trim();
}

test('an independent client is understood: identity, settings, errors by their standard numbers', async () => {
	expect(await lxi('*IDN?')).toMatch(/^PEAKWRIGHT,VIRTUAL TM-517,0,1$/);
	expect(await lxi('*RST;*CLS;*ESR?')).toBe('0');
	expect(await lxi(':SOURce:FREQuency:CW 455.5 KHZ;:FREQ?')).toBe('455500.0');
	// 0.1 V at 50 ohms is 0.2 mW: -6.99 dBm.
	expect(await lxi('POW 100 MV;POW?')).toBe('-6.99');
	expect(await lxi('NONSENSE 1;:SYST:ERR?')).toMatch(/^-113,"/);
	expect(await lxi('FREQ 1e12;:SYST:ERR?')).toMatch(/^-222,"/);
	expect(await lxi('FREQ low;:SYST:ERR?')).toMatch(/^-104,"/);
	expect(await lxi('FREQ;:SYST:ERR?')).toMatch(/^-109,"/);
	expect(await lxi('FREQ 1 V;:SYST:ERR?')).toMatch(/^-131,"/);
	expect(await lxi('OUTP MAYBE;:SYST:ERR?')).toMatch(/^-224,"/);
	expect(await lxi('SYST:ERR?')).toBe('0,"No error"');
	// Command errors are bit 5, execution errors bit 4 of the event status register [ieee-488-2].
	expect(await lxi('*ESR?')).toBe('48');
	expect(await lxi('*ESE 48;*SRE 32;FREQ 1e12;*STB?')).toBe(String(4 + 32 + 64));
	expect(await lxi('*CLS;*STB?')).toBe('0');
});

test('the error queue overflows as the standard says', async () => {
	await lxi('*CLS;*OPC?');
	for (let count = 0; count < 4; count++) await lxi(`${'BAD;'.repeat(6)}*OPC?`);
	expect(await lxi('SYST:ERR:COUN?')).toBe('16');
	const errors: string[] = [];
	for (let count = 0; count < 17; count++) errors.push((await lxi('SYST:ERR?')).split(',')[0] as string);
	expect(errors).toEqual([...Array.from({ length: 15 }, () => '-113'), '-350', '0']);
});

test('our own client sets and reads what the circuits say', async () => {
	const session = new ScpiSession({ kind: 'network', host: '127.0.0.1', port: server.port }, genericInstrument);
	const generator = new ScpiGenerator(session, genericInstrument.generator as GeneratorVerbs, 0);
	const meter = new ScpiMeter(session, genericInstrument.meter as MeterVerbs, Date.now);
	try {
		expect(await session.tell(['HAND:LEAD GRID', 'HAND:DIAL 560E3'])).toEqual({ kind: 'done' });
		for (const act of [
			() => generator.setFrequency(455e3),
			() => generator.setLevel(1e-3),
			() => generator.modulate(400, 0.3),
			() => generator.switchOn(),
		])
			expect(await act()).toMatchObject({ kind: 'done' });
		// AVC settles with 3.3 megohms and 0.05 mfd: 0.165 s; after a second less than 0.3 % of it is left.
		await new Promise((resolve) => setTimeout(resolve, 1000));
		const reading = await meter.read();
		const { toneV } = new SteadyState(set.values).operatingPoint({
			frequencyHz: 455e3,
			toneHz: 400,
			depth: 0.3,
			into: 'converter grid',
			levelV: 1e-3,
		});
		if (reading.kind !== 'level' || reading.levelDb === null) throw new Error(JSON.stringify(reading));
		expect(Math.abs(reading.levelDb.value - 20 * Math.log10(toneV))).toBeLessThan(0.3);
		expect(await generator.switchOff()).toEqual({ kind: 'done' });
		expect(await meter.read()).toMatchObject({ trust: 'no tone', levelDb: null });
	} finally {
		session.close();
	}
});

test('a line that does not end is an overrun, and the panel goes on', async () => {
	await lxi('*CLS;*OPC?');
	await new Promise<void>((resolve, reject) => {
		const socket = connect(server.port, '127.0.0.1', () => socket.end(`${'A'.repeat(100_000)}\n`));
		socket.on('close', () => resolve());
		socket.on('error', reject);
	});
	expect(await lxi('SYST:ERR?')).toMatch(/^-363,"/);
});
