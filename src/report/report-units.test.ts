import { expect, test } from 'vitest';
import { inUnits, unitsNamed } from './report-units.ts';

const said = (units: 'kc' | 'kHz' | 'm', words: string) => {
	const [block] = inUnits(units, [{ kind: 'paragraph', words }]);
	return block?.kind === 'paragraph' ? block.words : '';
};

test('frequencies are written in the units that were chosen, and nothing else is touched', () => {
	const text = 'Sensitivity at 1,000 kc: 455 kc/s, 10.7 Mc, 400 c; coil c, kcal';
	expect(said('kc', text)).toBe(text);
	expect(said('kHz', text)).toBe('Sensitivity at 1,000 kHz: 455 kHz, 10.7 MHz, 400 Hz; coil c, kcal');
	// 299,792.458 m kHz: 1,000 kHz is 300 m, 1,500 kHz 200 m, 150 kHz 1,999 m.
	expect(said('m', text)).toMatch(/^Sensitivity at 1,000 kHz \(300 m\): 455 kHz,/);
	expect(said('m', '150 kc to 1,500 kc, oscillator above')).toBe(
		'150 kHz (1999 m) to 1,500 kHz (200 m), oscillator above',
	);
	expect(said('m', 'at 10 kc')).toBe('at 10 kHz');
	expect(said('m', '<text>600 kc</text><text>kc</text>')).toBe('<text>600 kHz (500 m)</text><text>kHz</text>');
});

test('a picture inside a drawing stays as it is', () => {
	const drawing = '<image xlink:href="data:image/jpeg;base64,AA5kc/Mc+kc=="/>';
	for (const units of ['kHz', 'm'] as const) expect(said(units, drawing)).toBe(drawing);
	expect(unitsNamed('miles')).toBeNull();
});
