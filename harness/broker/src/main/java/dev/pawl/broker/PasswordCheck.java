package dev.pawl.broker;

import com.hivemq.embedded.EmbeddedExtension;
import com.hivemq.extension.sdk.api.ExtensionMain;
import com.hivemq.extension.sdk.api.auth.SimpleAuthenticator;
import com.hivemq.extension.sdk.api.auth.parameter.SimpleAuthInput;
import com.hivemq.extension.sdk.api.auth.parameter.SimpleAuthOutput;
import com.hivemq.extension.sdk.api.packets.connect.ConnackReasonCode;
import com.hivemq.extension.sdk.api.packets.connect.ConnectPacket;
import com.hivemq.extension.sdk.api.parameter.ExtensionStartInput;
import com.hivemq.extension.sdk.api.parameter.ExtensionStartOutput;
import com.hivemq.extension.sdk.api.parameter.ExtensionStopInput;
import com.hivemq.extension.sdk.api.parameter.ExtensionStopOutput;
import com.hivemq.extension.sdk.api.services.Services;
import java.nio.ByteBuffer;
import java.util.function.BiPredicate;

/** Lets in clients whose user and password are right, and no others. */
final class PasswordCheck implements ExtensionMain, SimpleAuthenticator {

  private final BiPredicate<String, byte[]> right;

  private PasswordCheck(BiPredicate<String, byte[]> right) {
    this.right = right;
  }

  static EmbeddedExtension extension(BiPredicate<String, byte[]> right) {
    return EmbeddedExtension.builder().withId("pawl-password-check").withName("Password check").withVersion("1")
        .withAuthor("Pawl")
        .withPriority(0).withStartPriority(1000).withExtensionMain(new PasswordCheck(right)).build();
  }

  @Override
  public void extensionStart(ExtensionStartInput input, ExtensionStartOutput output) {
    Services.securityRegistry().setAuthenticatorProvider(unused -> this);
  }

  @Override
  public void extensionStop(ExtensionStopInput input, ExtensionStopOutput output) {
    // It goes with the broker.
  }

  @Override
  public void onConnect(SimpleAuthInput input, SimpleAuthOutput output) {
    ConnectPacket stated = input.getConnectPacket();
    byte[] password = stated.getPassword().map(PasswordCheck::bytes).orElse(new byte[0]);
    if (right.test(stated.getUserName().orElse(""), password)) {
      output.authenticateSuccessfully();
    } else {
      output.failAuthentication(ConnackReasonCode.BAD_USER_NAME_OR_PASSWORD, "wrong user or password");
    }
  }

  private static byte[] bytes(ByteBuffer buffer) {
    byte[] bytes = new byte[buffer.remaining()];
    buffer.duplicate().get(bytes);
    return bytes;
  }
}
