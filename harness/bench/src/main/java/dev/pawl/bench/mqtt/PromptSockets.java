package dev.pawl.bench.mqtt;

import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import javax.net.SocketFactory;

/** Makes sockets that send at once. The usual ones wait for a full packet, up to 40 ms for each answer. */
final class PromptSockets extends SocketFactory {

  @Override
  public Socket createSocket() throws IOException {
    Socket socket = new Socket();
    socket.setTcpNoDelay(true);
    return socket;
  }

  @Override
  public Socket createSocket(String host, int port) throws IOException {
    return prompt(new Socket(host, port));
  }

  @Override
  public Socket createSocket(String host, int port, InetAddress localHost, int localPort) throws IOException {
    return prompt(new Socket(host, port, localHost, localPort));
  }

  @Override
  public Socket createSocket(InetAddress host, int port) throws IOException {
    return prompt(new Socket(host, port));
  }

  @Override
  public Socket createSocket(InetAddress address, int port, InetAddress localAddress, int localPort)
      throws IOException {
    return prompt(new Socket(address, port, localAddress, localPort));
  }

  private static Socket prompt(Socket socket) throws IOException {
    socket.setTcpNoDelay(true);
    return socket;
  }
}
