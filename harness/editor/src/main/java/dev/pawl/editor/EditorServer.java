package dev.pawl.editor;

import java.io.InputStream;
import java.io.OutputStream;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.Future;
import org.eclipse.lsp4j.CompletionOptions;
import org.eclipse.lsp4j.DidChangeConfigurationParams;
import org.eclipse.lsp4j.DidChangeWatchedFilesParams;
import org.eclipse.lsp4j.InitializeParams;
import org.eclipse.lsp4j.InitializeResult;
import org.eclipse.lsp4j.ServerCapabilities;
import org.eclipse.lsp4j.ServerInfo;
import org.eclipse.lsp4j.TextDocumentSyncKind;
import org.eclipse.lsp4j.jsonrpc.Launcher;
import org.eclipse.lsp4j.launch.LSPLauncher;
import org.eclipse.lsp4j.services.LanguageClient;
import org.eclipse.lsp4j.services.LanguageServer;
import org.eclipse.lsp4j.services.TextDocumentService;
import org.eclipse.lsp4j.services.WorkspaceService;

/** A server that one editor talks to for as long as it is open. */
public final class EditorServer implements LanguageServer {

  private final RuleDocuments documents;
  private final String version;
  private final CompletableFuture<Void> end = new CompletableFuture<>();
  private boolean shutDown;

  private EditorServer(Optional<Path> library, String version) {
    this.documents = new RuleDocuments(library);
    this.version = version;
  }

  /**
   * Answers an editor until it says that this is the end, or ends itself.
   *
   * @param library folder of the rule library, whose files may be used
   * @param version what the editor is told of whom it talks to
   * @return whether the editor said that it was done before it left
   */
  public static boolean serve(InputStream in, OutputStream out, Optional<Path> library, String version) {
    EditorServer server = new EditorServer(library, version);
    Launcher<LanguageClient> launcher = LSPLauncher.createServerLauncher(server, in, out);
    server.documents.tell(launcher.getRemoteProxy());
    Future<Void> listening = launcher.startListening();
    server.awaitEnd(listening);
    return server.shutDown;
  }

  private void awaitEnd(Future<Void> listening) {
    CompletableFuture<Void> closed = CompletableFuture.runAsync(() -> {
      try {
        listening.get();
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
      } catch (ExecutionException | CancellationException e) {
        // A connection that fails is one that has ended.
        return;
      }
    });
    CompletableFuture.anyOf(end, closed).join();
    listening.cancel(true);
  }

  @Override
  public CompletableFuture<InitializeResult> initialize(InitializeParams asked) {
    ServerCapabilities abilities = new ServerCapabilities();
    abilities.setTextDocumentSync(TextDocumentSyncKind.Full);
    abilities.setCompletionProvider(new CompletionOptions(false, null));
    abilities.setHoverProvider(true);
    abilities.setDefinitionProvider(true);
    abilities.setDocumentFormattingProvider(true);
    return CompletableFuture.completedFuture(new InitializeResult(abilities, new ServerInfo("pawl", version)));
  }

  @Override
  public CompletableFuture<Object> shutdown() {
    shutDown = true;
    return CompletableFuture.completedFuture(null);
  }

  @Override
  public void exit() {
    end.complete(null);
  }

  @Override
  public TextDocumentService getTextDocumentService() {
    return documents;
  }

  @Override
  public WorkspaceService getWorkspaceService() {
    return new WorkspaceService() {
      @Override
      public void didChangeConfiguration(DidChangeConfigurationParams change) {
        // There is nothing to configure.
      }

      @Override
      public void didChangeWatchedFiles(DidChangeWatchedFilesParams change) {
        documents.readAgain();
      }
    };
  }
}
