// Writes the first build of a newcomer: a small one with a mistake in it.

import * as vscode from 'vscode';

/** How the names of builds end. */
const ENDING = '.build.kdl';

/** Asks where to, writes the build and opens it. An existing file is only replaced when the dialog's question is answered. */
export async function startBuild(extension: vscode.Uri): Promise<void> {
  const name = 'first.build.kdl';
  const folder = vscode.workspace.workspaceFolders?.[0]?.uri;
  const chosen = await vscode.window.showSaveDialog({
    title: 'Where to write the build',
    // The dialog knows only what stands behind the last point.
    filters: { 'Build specification': ['kdl'] },
    ...(folder === undefined ? {} : { defaultUri: vscode.Uri.joinPath(folder, name) }),
  });
  if (chosen === undefined) {
    return;
  }
  // Under another ending it would not be looked after. Of the completed name the dialog has asked nothing.
  const isComplete = chosen.path.endsWith(ENDING);
  const target = isComplete ? chosen : chosen.with({ path: chosen.path.replace(/(\.kdl)?$/, ENDING) });
  try {
    await vscode.workspace.fs.copy(vscode.Uri.joinPath(extension, 'walkthrough', name), target, { overwrite: isComplete });
    await vscode.window.showTextDocument(await vscode.workspace.openTextDocument(target));
  } catch (fault) {
    const reason = fault instanceof Error ? fault.message : String(fault);
    void vscode.window.showErrorMessage(`Coachwright could not write ${target.fsPath}: ${reason}`);
  }
}
