// The item in the status bar: what the review of the file in front found.

import * as vscode from 'vscode';
import { countFindings, inWords } from './counts';

/** The languages that this extension looks after. */
export const LANGUAGES = ['coachwright-build', 'coachwright-parts', 'coachwright-rules'] as const;

/** What the server names itself in its diagnostics. */
const SOURCE = 'coachwright';

export class Status implements vscode.Disposable {
  private readonly item: vscode.StatusBarItem;
  private readonly watching: vscode.Disposable[];
  private trouble: string | undefined;

  constructor() {
    this.item = vscode.window.createStatusBarItem('coachwright.findings', vscode.StatusBarAlignment.Left);
    this.item.name = 'Coachwright findings';
    this.watching = [
      vscode.window.onDidChangeActiveTextEditor(() => this.show()),
      vscode.languages.onDidChangeDiagnostics(() => this.show()),
    ];
    this.show();
  }

  /** Says that the server does not run, and why; `undefined` when it runs. */
  setTrouble(trouble: string | undefined): void {
    this.trouble = trouble;
    this.show();
  }

  private show(): void {
    const document = vscode.window.activeTextEditor?.document;
    if (document === undefined || !LANGUAGES.some((language) => language === document.languageId)) {
      this.item.hide();
      return;
    }
    if (this.trouble === undefined) {
      this.showCounts(document.uri);
    } else {
      this.item.text = 'Coachwright: not running';
      this.item.tooltip = this.trouble;
      this.item.command = 'coachwright.restart';
      this.item.backgroundColor = new vscode.ThemeColor('statusBarItem.warningBackground');
    }
    this.item.show();
  }

  private showCounts(uri: vscode.Uri): void {
    const ours = vscode.languages.getDiagnostics(uri).filter((found) => found.source === SOURCE);
    const counts = countFindings(ours);
    this.item.text = `Coachwright: ${inWords(counts)}`;
    this.item.tooltip =
      'Findings in this file by signal word. The review does not replace codes, makers’ instructions or licensed practice; a file without findings is not an approval.';
    this.item.command = 'workbench.actions.view.problems';
    this.item.backgroundColor =
      counts.danger > 0 ? new vscode.ThemeColor('statusBarItem.errorBackground') : undefined;
  }

  dispose(): void {
    this.item.dispose();
    for (const watch of this.watching) {
      watch.dispose();
    }
  }
}
