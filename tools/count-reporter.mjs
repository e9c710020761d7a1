/** Ends every test run with one plain line: how many passed, how many failed; a test that was skipped counts as failed. */
export default class CountReporter {
	onTestRunEnd(modules, unhandledErrors) {
		let passed = 0;
		let failed = unhandledErrors.length;
		for (const module of modules) {
			failed += module.errors().length;
			for (const test of module.children.allTests()) {
				if (test.result().state === 'passed') passed++;
				else failed++;
			}
		}
		this.line = `${passed} passed, ${failed} failed`;
		process.on('exit', () => {
			console.log(this.line);
			if (failed > 0 && !process.exitCode) process.exitCode = 1;
		});
	}
}
