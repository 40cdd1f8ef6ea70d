/*
 * What `npm run types` does: the files of each folder are compiled under that folder's own configuration, whose
 * libraries are the wall round it. A file that is imported from another folder is held to its own and not looked at
 * once more, but where no folder has it; and what was read for one folder is not read again for the next.
 */

import { fileURLToPath } from 'node:url';
import ts from 'typescript';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const FOLDERS = ['app/core', 'app/wire', 'app/host', 'app/cli', 'app/desktop', 'renderer', 'tests'];

const configurations = FOLDERS.map(configurationOf);
const owned = new Set(configurations.flatMap(({ fileNames }) => fileNames));
const texts = new Map<string, string | undefined>();

const faults = configurations.flatMap(faultsUnder);
const layout = {
  getCanonicalFileName: (name: string) => name,
  getCurrentDirectory: () => ROOT,
  getNewLine: () => '\n',
};
process.stdout.write(ts.formatDiagnosticsWithColorAndContext(faults, layout));
process.exitCode = faults.length > 0 ? 1 : 0;

function faultsUnder({ fileNames, options }: ts.ParsedCommandLine): readonly ts.Diagnostic[] {
  const host = ts.createCompilerHost(options);
  const { readFile } = host;
  host.readFile = (path) => {
    if (!texts.has(path)) texts.set(path, readFile(path));
    return texts.get(path);
  };
  const program = ts.createProgram(fileNames, options, host);
  const own = new Set(fileNames);
  const looked = program
    .getSourceFiles()
    .filter((file) => own.has(file.fileName) || !(owned.has(file.fileName) || isOfPackage(program, file)))
    .flatMap((file) => [...program.getSyntacticDiagnostics(file), ...program.getSemanticDiagnostics(file)]);
  return [...program.getOptionsDiagnostics(), ...looked, ...program.getGlobalDiagnostics()];
}

function isOfPackage(program: ts.Program, file: ts.SourceFile): boolean {
  return program.isSourceFileFromExternalLibrary(file) || program.isSourceFileDefaultLibrary(file);
}

function configurationOf(folder: string): ts.ParsedCommandLine {
  const file = `${ROOT}${folder}/tsconfig.json`;
  const host = { ...ts.sys, onUnRecoverableConfigFileDiagnostic: refuse };
  const configuration = ts.getParsedCommandLineOfConfigFile(file, {}, host);
  if (!configuration) throw new Error(`${file} is missing`);
  configuration.errors.forEach(refuse);
  return configuration;
}

function refuse({ messageText }: ts.Diagnostic): never {
  throw new Error(ts.flattenDiagnosticMessageText(messageText, '\n'));
}
