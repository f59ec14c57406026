package dev.pawl.mqtt.client;

import java.net.ConnectException;
import java.net.NoRouteToHostException;
import java.net.SocketTimeoutException;
import java.net.UnknownHostException;
import javax.net.ssl.SSLException;
import org.eclipse.paho.mqttv5.client.MqttClientException;
import org.eclipse.paho.mqttv5.client.MqttDisconnectResponse;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.eclipse.paho.mqttv5.common.packet.MqttReturnCode;

/** Why a connection failed, in words for the user. */
final class Reasons {

  private Reasons() {}

  static String of(Throwable failure, Throwable cause) {
    if (cause instanceof UnknownHostException) {
      return "no such host";
    }
    if (cause instanceof PacketTrouble) {
      return cause.getMessage();
    }
    if (cause instanceof SSLException) {
      return "no encrypted connection: " + cause.getMessage();
    }
    if (cause instanceof ConnectException || cause instanceof NoRouteToHostException
        || cause instanceof SocketTimeoutException) {
      return "nothing answers there";
    }
    if (failure instanceof MqttException mqtt) {
      return ofCode(mqtt.getReasonCode(), mqtt.getMessage());
    }
    return cause.getMessage() == null ? cause.getClass().getSimpleName() : cause.getMessage();
  }

  private static String ofCode(int code, String message) {
    return switch (code) {
      case MqttReturnCode.RETURN_CODE_BAD_USERNAME_OR_PASSWORD -> "user or password is wrong";
      case MqttReturnCode.RETURN_CODE_NOT_AUTHORIZED -> "the broker does not allow it";
      case MqttReturnCode.RETURN_CODE_UNSUPPORTED_PROTOCOL_VERSION -> "the broker does not speak MQTT 5";
      case MqttReturnCode.RETURN_CODE_SERVER_BUSY -> "the broker is busy";
      case MqttReturnCode.RETURN_CODE_BANNED -> "the broker has banned this client";
      case MqttReturnCode.RETURN_CODE_IDENTIFIER_NOT_VALID -> "the broker does not take this client identifier";
      case MqttClientException.REASON_CODE_CLIENT_TIMEOUT -> "the broker does not answer in time";
      default -> message == null ? "reason code " + code : message;
    };
  }

  static String of(MqttDisconnectResponse response) {
    if (response == null) {
      return "the connection ended";
    }
    MqttException exception = response.getException();
    if (exception != null) {
      return of(exception, exception.getCause() == null ? exception : exception.getCause());
    }
    return "the broker ended it, reason code " + response.getReturnCode();
  }
}
