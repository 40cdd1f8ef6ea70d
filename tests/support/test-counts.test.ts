import { expect, test } from 'vitest';
import { countsOf, summaryLine } from './test-counts.ts';

const report = (...files: { status: string; tests: readonly string[] }[]) =>
  JSON.stringify({
    testResults: files.map(({ status, tests }) => ({
      status,
      assertionResults: tests.map((each) => ({ status: each })),
    })),
  });

test('[tests] passed, failed and skipped tests are counted over all files', () => {
  const text = report(
    { status: 'passed', tests: ['passed', 'passed', 'pending'] },
    { status: 'failed', tests: ['failed', 'passed', 'skipped'] },
  );
  expect(countsOf(text)).toEqual({ passed: 3, failed: 1, skipped: 2 });
});

test('[tests] a file that fails before its tests run is one failure', () => {
  expect(countsOf(report({ status: 'failed', tests: [] }))).toEqual({ passed: 0, failed: 1, skipped: 0 });
});

test('[tests] a text that is no report is no count', () => {
  expect(() => countsOf('{}')).toThrow();
});

test('[tests] the last line sums the runs and names skipped tests only where there are any', () => {
  const unit = { passed: 800, failed: 0, skipped: 0 };
  expect(summaryLine([unit, { passed: 12, failed: 1, skipped: 0 }])).toBe('812 passed, 1 failed');
  expect(summaryLine([unit, { passed: 12, failed: 0, skipped: 2 }])).toBe('812 passed, 0 failed, 2 skipped');
});
