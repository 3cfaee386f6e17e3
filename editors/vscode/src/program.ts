// Where the program that reviews is: said in the settings, else on PATH.

import { accessSync, constants, statSync } from 'node:fs';
import { homedir } from 'node:os';
import { delimiter, isAbsolute, join, resolve } from 'node:path';

/** The name under which the program is looked for on PATH. */
const PROGRAM = 'coachwright';

/** The program's path, or a sentence that says why there is none. */
export type Program = { path: string } | { missing: string };

/** What finding the program depends on. */
export interface Surroundings {
  /** The setting `coachwright.server.path`; empty when it is not set. */
  setting: string;
  /** The first folder that is open, if one is. */
  folder: string | undefined;
  /** The search path for programs. */
  searchPath: string;
  windows: boolean;
}

/** Finds the program by the setting, else on the search path. */
export function findProgram(around: Surroundings): Program {
  const setting = around.setting.trim();
  return setting === '' ? onSearchPath(around) : bySetting(setting, around);
}

function bySetting(setting: string, around: Surroundings): Program {
  let path = setting;
  if (path === '~' || path.startsWith('~/') || path.startsWith('~\\')) {
    path = join(homedir(), path.slice(1));
  }
  if (path.includes('${workspaceFolder}')) {
    if (around.folder === undefined) {
      return { missing: `the setting coachwright.server.path says "${setting}", but no folder is open.` };
    }
    path = path.replaceAll('${workspaceFolder}', around.folder);
  }
  if (!isAbsolute(path)) {
    if (!path.includes('/') && !path.includes('\\')) {
      return onSearchPath(around, path);
    }
    if (around.folder === undefined) {
      return { missing: `the setting coachwright.server.path says "${setting}", which needs an open folder; write the full path.` };
    }
    path = resolve(around.folder, path);
  }
  const found = withSuffix(path, around.windows);
  return found === undefined
    ? { missing: `there is no program at "${path}". Correct the setting coachwright.server.path.` }
    : { path: found };
}

function onSearchPath(around: Surroundings, name = PROGRAM): Program {
  for (const folder of around.searchPath.split(delimiter)) {
    const found = folder === '' ? undefined : withSuffix(join(folder, name), around.windows);
    if (found !== undefined) {
      return { path: found };
    }
  }
  return {
    missing: `no program named "${name}" is on PATH. Install it, or say where it is in the setting coachwright.server.path.`,
  };
}

function withSuffix(path: string, windows: boolean): string | undefined {
  const candidates = windows ? [`${path}.exe`, path] : [path];
  return candidates.find(canRun);
}

function canRun(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return statSync(path).isFile();
  } catch {
    return false;
  }
}
