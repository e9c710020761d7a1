import { homedir, platform } from 'node:os';
import { join } from 'node:path';

/** Where a person's data is kept when nothing else is said: the folder that the system means for it. */
export function usualDataFolder(environment: NodeJS.ProcessEnv): string {
	if (platform() === 'win32') return join(environment.APPDATA ?? join(homedir(), 'AppData', 'Roaming'), 'Peakwright');
	if (platform() === 'darwin') return join(homedir(), 'Library', 'Application Support', 'Peakwright');
	return join(environment.XDG_DATA_HOME ?? join(homedir(), '.local', 'share'), 'peakwright');
}
