import { homedir } from 'node:os';
import { posix, win32 } from 'node:path';

/** Where a person's data is kept when nothing else is said: the folder that the system means for it. */
export function usualDataFolder(
	environment: NodeJS.ProcessEnv,
	system: NodeJS.Platform = process.platform,
	home: string = homedir(),
): string {
	if (system === 'win32')
		return win32.join(environment.APPDATA || win32.join(home, 'AppData', 'Roaming'), 'Peakwright');
	if (system === 'darwin') return posix.join(home, 'Library', 'Application Support', 'Peakwright');
	const named = environment.XDG_DATA_HOME ?? '';
	// An empty or relative one counts as unset: [xdg-basedir], "Environment variables".
	return posix.join(posix.isAbsolute(named) ? named : posix.join(home, '.local', 'share'), 'peakwright');
}
