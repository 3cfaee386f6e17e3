// Notices in the Problems panel. The server sends them as hints, which this editor marks by three dots and lists nowhere, so
// that the panel would show less than the status bar counts. As information they are listed.

import * as vscode from 'vscode';
import { Middleware } from 'vscode-languageclient/node';

/** Raises hints to information. */
export const listNotices: Middleware = {
  handleDiagnostics: (uri, diagnostics, next) => next(uri, diagnostics.map(listed)),
};

function listed(found: vscode.Diagnostic): vscode.Diagnostic {
  if (found.severity === vscode.DiagnosticSeverity.Hint) {
    found.severity = vscode.DiagnosticSeverity.Information;
  }
  return found;
}
