// Notices in the Problems panel. The server sends them as hints, which this editor marks by three dots and lists nowhere, so
// that the panel would show less than the status bar counts. As information they are listed.

import * as vscode from 'vscode';
import { Middleware, vsdiag } from 'vscode-languageclient/node';

/** Raises hints to information, however the server delivers its findings. */
export const listNotices: Middleware = {
  handleDiagnostics: (uri, diagnostics, next) => next(uri, diagnostics.map(listed)),
  provideDiagnostics: async (document, previous, token, next) => {
    const report = await next(document, previous, token);
    if (report !== undefined && report !== null) {
      // What a build brings in is reported along with it.
      for (const one of [report, ...Object.values(report.relatedDocuments ?? {})]) {
        if (one.kind === vsdiag.DocumentDiagnosticReportKind.full) {
          one.items = one.items.map(listed);
        }
      }
    }
    return report;
  },
};

function listed(found: vscode.Diagnostic): vscode.Diagnostic {
  if (found.severity === vscode.DiagnosticSeverity.Hint) {
    found.severity = vscode.DiagnosticSeverity.Information;
  }
  return found;
}
