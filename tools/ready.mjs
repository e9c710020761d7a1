/**
 * Makes a clone ready: packages when package.json, the lock or Node changed; the build when the source changed.
 * With --packages only the packages, all of them; with --tests also the programs from Debian that the tests need.
 * Everything it says goes to standard error, so that a command's own output stays clean.
 */
import { execFileSync, spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const stampFile = join(root, 'node_modules', '.peakwright-ready.json');
const windows = process.platform === 'win32';

const say = (text) => process.stderr.write(`${text}\n`);

function stamps() {
	try {
		return JSON.parse(readFileSync(stampFile, 'utf8'));
	} catch {
		return {};
	}
}

function keepStamp(name, value) {
	writeFileSync(stampFile, JSON.stringify({ ...stamps(), [name]: value }));
}

function hashOf(parts) {
	const hash = createHash('sha256');
	for (const part of parts) hash.update(part);
	return hash.digest('hex');
}

function filesBelow(folder) {
	const found = [];
	for (const entry of readdirSync(folder, { withFileTypes: true })) {
		const path = join(folder, entry.name);
		if (entry.isDirectory()) found.push(...filesBelow(path));
		else if (!entry.name.includes('.test.')) found.push(path);
	}
	return found.sort();
}

function run(command, args) {
	const done = spawnSync(command, args, { cwd: root, stdio: ['ignore', 2, 2], shell: windows });
	if (done.status !== 0) {
		say(`cannot make the program ready: "${command} ${args.join(' ')}" failed; mend what it says above and try again`);
		process.exit(1);
	}
}

/** Brings the packages; whether they were fetched anew. */
function packages() {
	const wanted = hashOf([
		readFileSync(join(root, 'package.json')),
		readFileSync(join(root, 'package-lock.json')),
		process.versions.modules,
	]);
	if (stamps().packages === wanted) return false;
	say('Fetching packages (once; a minute or two) ...');
	run('npm', ['ci', '--no-audit', '--no-fund', '--loglevel=error']);
	keepStamp('packages', wanted);
	return true;
}

const require = createRequire(join(root, 'package.json'));

/** Compiled parts, which npm leaves out in silence where they can be neither fetched nor compiled: how each is opened, and what is not to be had without it. */
const compiledParts = [
	{
		name: 'better-sqlite3',
		open: () => new (require('better-sqlite3'))(':memory:').close(),
		lost: 'the program keeps nothing: no shelf, no bench',
	},
	{ name: 'serialport', open: () => require('serialport'), lost: 'instruments on a serial line cannot be driven' },
];

function opens({ open }) {
	try {
		open();
		return true;
	} catch {
		return false;
	}
}

/** Says which compiled parts do not open and what to do; whether all do. */
function hasAllParts() {
	const missing = compiledParts.filter((part) => !opens(part));
	for (const { name, lost } of missing) say(`${name} is missing or does not open: without it ${lost}.`);
	if (missing.length > 0)
		say(
			'It could be neither fetched ready-made nor compiled. See that the network lets github.com through, or give the machine a compiler, make and Python (on Debian: apt-get install build-essential python3); then: npm ci',
		);
	return missing.length === 0;
}

function build() {
	const sources = [
		...['src', 'docs', 'tools/documentation', 'tools/handbook'].flatMap((folder) => filesBelow(join(root, folder))),
		...['package.json', 'package-lock.json', 'vite.config.ts', 'tools/build.mjs'].map((name) => join(root, name)),
	];
	const wanted = hashOf(sources.flatMap((path) => [path, readFileSync(path)]));
	if (stamps().build === wanted && existsSync(join(root, 'dist', 'cli.mjs'))) return;
	say('Building ...');
	run(process.execPath, [join(root, 'tools', 'build.mjs')]);
	keepStamp('build', wanted);
}

/** Programs that tests run, and the Debian packages that bring them. */
const programs = [
	{ program: 'chromium', debian: 'chromium' },
	{ program: 'firefox-esr', debian: 'firefox-esr' },
	{ program: 'ngspice', debian: 'ngspice' },
	{ program: 'pdftotext', debian: 'poppler-utils' },
	{ program: 'lxi', debian: 'lxi-tools' },
];

function onPath(program) {
	const places = (process.env.PATH ?? '').split(windows ? ';' : ':');
	return places.some((place) =>
		[program, `${program}.exe`].some((name) => existsSync(join(place, name)) && statSync(join(place, name)).isFile()),
	);
}

function testPrograms() {
	const missing = programs.filter(({ program }) => !onPath(program));
	if (missing.length === 0) return;
	const names = missing.map(({ debian }) => debian).join(' ');
	if (onPath('apt-get') && process.getuid?.() === 0) {
		say(`Installing ${names} for the tests ...`);
		try {
			execFileSync('apt-get', ['update', '-qq'], { stdio: ['ignore', 2, 2] });
			execFileSync('apt-get', ['install', '-y', '-qq', '--no-install-recommends', ...names.split(' ')], {
				stdio: ['ignore', 2, 2],
				env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
			});
		} catch {
			// what is still missing is named below
		}
	}
	const still = missing.filter(({ program }) => !onPath(program));
	if (still.length > 0) {
		say(
			`the tests need ${still.map(({ debian }) => debian).join(', ')}: install with "apt-get install ${still.map(({ debian }) => debian).join(' ')}" and try again`,
		);
		process.exit(1);
	}
}

// An installed package (not a clone) is ready as it is.
if (existsSync(join(root, 'src'))) {
	const areFresh = packages();
	// Types, layers and tests look at every part: without one they would fail by words that name something else.
	const isForTests = process.argv.includes('--packages') || process.argv.includes('--tests');
	if ((areFresh || isForTests) && !hasAllParts() && isForTests) {
		say('check and tests need every part and were not begun');
		process.exit(1);
	}
	if (!process.argv.includes('--packages')) build();
	if (process.argv.includes('--tests')) testPrograms();
}
