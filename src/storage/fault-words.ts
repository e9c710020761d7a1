/** The code that SQLite or the system gave a fault; empty when it gave none. */
export function faultCode(error: unknown): string {
	const { code } = (error ?? {}) as { code?: unknown };
	return typeof code === 'string' ? code : '';
}

const known: readonly { readonly code: RegExp; readonly words: string }[] = [
	{ code: /^SQLITE_FULL|^ENOSPC|^EDQUOT/, words: 'the disk is full: nothing that was kept is lost; make room on it' },
	{
		code: /^SQLITE_(BUSY|LOCKED)/,
		words: 'another program holds the journal: nothing is lost; close that program, a viewer of databases perhaps',
	},
	{
		code: /^SQLITE_(CORRUPT|NOTADB)/,
		words: 'the journal is damaged: stop Peakwright and put a backup in its place',
	},
	{
		code: /^SQLITE_(READONLY|CANTOPEN|PERM|AUTH)|^EACCES|^EPERM|^EROFS/,
		words: 'the data folder cannot be written: nothing that was kept is lost; see who owns it',
	},
	{
		code: /^SQLITE_IOERR|^EIO|^EFBIG/,
		words: 'the disk does not take or give what it should: nothing that was kept is touched; look to the disk',
	},
];

/** What went wrong with the data and what to do, in a sentence without its stop. */
export function faultWords(error: unknown): string {
	const code = faultCode(error);
	const found = known.find((fault) => fault.code.test(code));
	return found?.words ?? (error instanceof Error ? error.message : String(error));
}
