import { expect, test } from 'vitest';
import { usualDataFolder } from './data-folder.ts';

test('data is kept where each system means it to be', () => {
	// [xdg-basedir]; the other two by what their makers' documentation says of application data, from memory.
	expect(usualDataFolder({}, 'linux', '/home/ann')).toBe('/home/ann/.local/share/peakwright');
	expect(usualDataFolder({ XDG_DATA_HOME: '/data/ann' }, 'linux', '/home/ann')).toBe('/data/ann/peakwright');
	expect(usualDataFolder({}, 'darwin', '/Users/ann')).toBe('/Users/ann/Library/Application Support/Peakwright');
	expect(usualDataFolder({ APPDATA: 'D:\\Roaming' }, 'win32', 'C:\\Users\\ann')).toBe('D:\\Roaming\\Peakwright');
	expect(usualDataFolder({}, 'win32', 'C:\\Users\\ann')).toBe('C:\\Users\\ann\\AppData\\Roaming\\Peakwright');
});

test('an empty or relative folder in the environment counts as none', () => {
	for (const named of ['', 'data'])
		expect(usualDataFolder({ XDG_DATA_HOME: named }, 'linux', '/home/ann')).toBe('/home/ann/.local/share/peakwright');
	expect(usualDataFolder({ APPDATA: '' }, 'win32', 'C:\\Users\\ann')).toBe(
		'C:\\Users\\ann\\AppData\\Roaming\\Peakwright',
	);
});
