// Starts `coachwright language-server` for builds, parts and rule packs, and says so when it cannot.

import * as vscode from 'vscode';
import {
  DidChangeConfigurationNotification,
  LanguageClient,
  LanguageClientOptions,
  RevealOutputChannelOn,
  ServerOptions,
} from 'vscode-languageclient/node';
import { startBuild } from './first';
import { listNotices } from './notices';
import { findProgram } from './program';
import { LANGUAGES, Status } from './status';

const OPEN_SETTING = 'Open the setting';
const SHOW_LOG = 'Show the log';
const TRY_AGAIN = 'Try again';

/** The settings that the server itself reads, at its start and whenever they change. */
function serverSettings(): { inlayHints: boolean; snippets: boolean; undecided: string } {
  // The extension brings snippets of its own: those of the server would stand beside them.
  const settings = vscode.workspace.getConfiguration('coachwright');
  return {
    snippets: false,
    undecided: settings.get<string>('undecided') ?? 'each',
    inlayHints: settings.get<boolean>('inlayHints') ?? true,
  };
}

/** The one server of this window, and the order in which it is started and stopped. */
class Server implements vscode.Disposable {
  private client: LanguageClient | undefined;
  private queue: Promise<void> = Promise.resolve();

  constructor(
    private readonly log: vscode.LogOutputChannel,
    private readonly status: Status,
  ) {}

  /** Stops the server, if it runs, and starts it anew. Calls that come meanwhile wait for their turn. */
  restart(): Promise<void> {
    this.queue = this.queue.then(async () => {
      await this.halt();
      await this.start();
    });
    return this.queue;
  }

  /** Tells the running server what the settings say now. */
  configure(): Promise<void> {
    this.queue = this.queue.then(async () => {
      try {
        await this.client?.sendNotification(DidChangeConfigurationNotification.type, { settings: serverSettings() });
      } catch (fault) {
        this.log.warn(`The language server could not be told the new settings: ${String(fault)}`);
      }
    });
    return this.queue;
  }

  /** Stops the server for good. */
  stop(): Promise<void> {
    this.queue = this.queue.then(() => this.halt());
    return this.queue;
  }

  private async start(): Promise<void> {
    const program = findProgram({
      setting: vscode.workspace.getConfiguration('coachwright').get<string>('server.path') ?? '',
      folder: vscode.workspace.workspaceFolders?.[0]?.uri.fsPath,
      searchPath: process.env['PATH'] ?? '',
      windows: process.platform === 'win32',
    });
    if ('missing' in program) {
      this.fail(program.missing);
      return;
    }
    const server: ServerOptions = { command: program.path, args: ['language-server'] };
    const options: LanguageClientOptions = {
      documentSelector: LANGUAGES.map((language) => ({ scheme: 'file', language })),
      initializationOptions: serverSettings,
      middleware: listNotices,
      outputChannel: this.log,
      revealOutputChannelOn: RevealOutputChannelOn.Never,
      // Without this the client shows a message of its own beside ours.
      initializationFailedHandler: () => false,
    };
    const client = new LanguageClient('coachwright', 'Coachwright', server, options);
    this.client = client;
    try {
      await client.start();
      this.status.setTrouble(undefined);
    } catch (fault) {
      this.client = undefined;
      const reason = fault instanceof Error ? fault.message : String(fault);
      this.fail(`"${program.path}" does not answer as a language server (${reason}).`);
    }
  }

  private async halt(): Promise<void> {
    const client = this.client;
    this.client = undefined;
    try {
      await client?.dispose();
    } catch (fault) {
      // A server that has already gone cannot be stopped; what it said stands in the log.
      this.log.warn(`The language server could not be stopped in order: ${String(fault)}`);
    }
  }

  private fail(reason: string): void {
    const message = `Coachwright could not start: ${reason}`;
    this.log.error(message);
    this.status.setTrouble(message);
    void vscode.window.showErrorMessage(message, OPEN_SETTING, SHOW_LOG, TRY_AGAIN).then((choice) => {
      if (choice === OPEN_SETTING) {
        void vscode.commands.executeCommand('workbench.action.openSettings', 'coachwright.server.path');
      } else if (choice === SHOW_LOG) {
        this.log.show();
      } else if (choice === TRY_AGAIN) {
        void this.restart();
      }
    });
  }

  dispose(): void {
    void this.stop();
  }
}

let server: Server | undefined;

export async function activate(context: vscode.ExtensionContext): Promise<void> {
  const log = vscode.window.createOutputChannel('Coachwright', { log: true });
  const status = new Status();
  const running = new Server(log, status);
  server = running;
  context.subscriptions.push(
    log,
    status,
    vscode.commands.registerCommand('coachwright.restart', () => running.restart()),
    vscode.commands.registerCommand('coachwright.showLog', () => log.show()),
    vscode.commands.registerCommand('coachwright.startBuild', () => startBuild(context.extensionUri)),
    vscode.workspace.onDidChangeConfiguration((change) => {
      if (change.affectsConfiguration('coachwright.server')) {
        void running.restart();
      } else if (['coachwright.inlayHints', 'coachwright.undecided'].some((own) => change.affectsConfiguration(own))) {
        void running.configure();
      }
    }),
  );
  await running.restart();
}

export function deactivate(): Promise<void> | undefined {
  return server?.stop();
}
