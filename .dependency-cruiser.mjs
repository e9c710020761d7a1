/**
 * The architecture as rules: who may use whom. Each folder may use itself and what is named, nothing else.
 * The walls after the table are held as well.
 */
const pureCore = '^src/core/';
const allowed = {
	'core/numeric': [],
	'core/circuit': ['^src/core/numeric/'],
	'core/signal': ['^src/core/numeric/'],
	'core/receiver': ['^src/core/(numeric|circuit)/'],
	'core/estimate': ['^src/core/(numeric|circuit|signal|receiver)/'],
	record: ['^src/core/(numeric|circuit|receiver)/'],
	advice: [pureCore, '^src/record/'],
	instruments: [pureCore, '^src/record/'],
	'instruments/remote': [pureCore, '^src/record/', '^src/wire/', '^src/instruments/instrument\\.ts$'],
	bench: [pureCore, '^src/record/', '^src/advice/', '^src/instruments/instrument\\.ts$'],
	rehearsal: [pureCore, '^src/record/', '^src/advice/', '^src/bench/', '^src/instruments/instrument\\.ts$'],
	wire: ['^src/record/'],
	storage: ['^src/record/', '^src/bench/journal\\.ts$'],
	draw: [pureCore, '^src/record/', '^src/advice/'],
	report: [pureCore, '^src/record/', '^src/advice/', '^src/draw/'],
	web: [
		pureCore,
		'^src/record/',
		'^src/advice/',
		'^src/wire/',
		'^src/instruments/',
		'^src/bench/',
		'^src/rehearsal/',
		'^src/draw/',
		'^src/report/',
	],
	server: [
		'^src/record/',
		'^src/wire/',
		'^src/instruments/',
		'^src/bench/',
		'^src/advice/',
		'^src/storage/',
		'^src/draw/',
		'^src/report/',
	],
	cli: ['^src/(?!web/)'],
};

/** Packages that a folder may open; `node` stands for Node's own modules. */
const packages = {
	'core/signal': ['fft\\.js'],
	record: ['zod'],
	wire: ['zod'],
	draw: ['d3-scale'],
	'instruments/scpi': ['serialport', 'node'],
	'instruments/remote': ['zod'],
	web: ['svelte', 'zod', '@expo-google-fonts/'],
	storage: ['better-sqlite3', 'kysely', 'yauzl', 'yazl', 'node'],
	server: [
		'hono',
		'@hono/node-server',
		'ws',
		'zod',
		'kysely',
		'@myriaddreamin/typst-ts-node-compiler',
		'sharp',
		'node',
	],
	cli: ['zod', 'node'],
};

const folderRules = Object.entries(allowed).map(([folder, others]) => ({
	name: `${folder} uses only itself and what is allowed to it`,
	severity: 'error',
	from: {
		path: `^src/${folder}/`,
		pathNot: ['\\.test\\.ts$', ...(folder === 'instruments' ? ['^src/instruments/remote/'] : [])],
	},
	to: { path: '^src/', pathNot: [`^src/${folder}/`, ...others] },
}));

const packageRules = [...Object.keys(allowed), 'instruments/scpi'].map((folder) => {
	const named = packages[folder] ?? [];
	const node = named.includes('node');
	const ownRule = folder === 'instruments' ? ['^src/instruments/(scpi|remote)/'] : [];
	return {
		name: `${folder} opens only the packages allowed to it`,
		severity: 'error',
		from: { path: `^src/${folder}/`, pathNot: ['\\.test\\.ts$', ...ownRule] },
		to: {
			dependencyTypes: [
				'npm',
				'npm-dev',
				'npm-no-pkg',
				'npm-unknown',
				'npm-optional',
				'npm-peer',
				...(node ? [] : ['core']),
			],
			pathNot: named.filter((name) => name !== 'node').map((name) => `node_modules/${name}`),
		},
	};
});

const walls = [
	{
		name: 'nothing goes in circles',
		severity: 'error',
		from: {},
		to: { circular: true, viaOnly: { dependencyTypesNot: ['type-only'] } },
	},
	{
		name: 'every source file is used by another or by a test',
		severity: 'error',
		from: { orphan: true, path: '^src/', pathNot: '\\.d\\.ts$' },
		to: {},
	},
	{
		name: 'only the places that plug instruments in open the virtual set',
		severity: 'error',
		from: { path: '^src/', pathNot: ['^src/instruments/virtual/', '^src/web/', '^src/cli/', '\\.test\\.ts$'] },
		to: { path: '^src/instruments/virtual/' },
	},
	{
		name: 'the true values of a simulated set are closed to estimates and advice',
		severity: 'error',
		from: { path: '^src/(core/estimate|advice|record|bench)/', pathNot: '\\.test\\.ts$' },
		to: { path: '^src/core/receiver/(truth|best)\\.ts$' },
	},
	{
		name: 'drivers do not know each other',
		severity: 'error',
		from: { path: '^src/instruments/([^/]+)/', pathNot: '\\.test\\.ts$' },
		to: { path: '^src/instruments/[^/]+/', pathNot: '^src/instruments/$1/' },
	},
	{
		name: 'the page does not reach the machine, the terminal does not reach the sound card',
		severity: 'error',
		from: { path: '^src/(server|cli)/' },
		to: { path: '^src/instruments/sound-card/' },
	},
	{
		name: "the host does not look at its own instruments through the page's window",
		severity: 'error',
		from: { path: '^src/(server|cli|instruments/(?!remote))' },
		to: { path: '^src/instruments/remote/' },
	},
	{
		name: "the page does not open the host's instruments",
		severity: 'error',
		from: { path: '^src/web/' },
		to: { path: '^src/instruments/scpi/' },
	},
	{
		name: 'every import leads somewhere',
		severity: 'error',
		from: { path: '^src/' },
		to: { couldNotResolve: true, pathNot: '\\?(worker|url|raw)|^virtual:' },
	},
];

export default {
	forbidden: [...folderRules, ...packageRules, ...walls],
	options: {
		tsPreCompilationDeps: true,
		tsConfig: { fileName: 'tsconfig.node.json' },
		doNotFollow: { path: 'node_modules' },
		enhancedResolveOptions: {
			extensions: ['.ts', '.js', '.mjs', '.svelte', '.json'],
			conditionNames: ['svelte', 'import', 'node', 'default', 'types'],
			exportsFields: ['exports'],
		},
	},
};
