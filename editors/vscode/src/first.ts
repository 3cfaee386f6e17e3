// Writes the first build of a newcomer: a small one with a mistake in it.

import * as vscode from 'vscode';

/** Asks where to, writes the build and opens it. An existing file is only replaced when the dialog's question is answered. */
export async function startBuild(extension: vscode.Uri): Promise<void> {
  const name = 'first.build.kdl';
  const folder = vscode.workspace.workspaceFolders?.[0]?.uri;
  const target = await vscode.window.showSaveDialog({
    title: 'Where to write the build',
    filters: { 'Build specification': ['build.kdl'] },
    ...(folder === undefined ? {} : { defaultUri: vscode.Uri.joinPath(folder, name) }),
  });
  if (target === undefined) {
    return;
  }
  try {
    await vscode.workspace.fs.copy(vscode.Uri.joinPath(extension, 'walkthrough', name), target, { overwrite: true });
    await vscode.window.showTextDocument(await vscode.workspace.openTextDocument(target));
  } catch (fault) {
    const reason = fault instanceof Error ? fault.message : String(fault);
    void vscode.window.showErrorMessage(`Coachwright could not write ${target.fsPath}: ${reason}`);
  }
}
