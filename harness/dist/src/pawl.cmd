@echo off
rem Runs pawl out of an unpacked archive.
rem PAWL_JAVA_OPTIONS holds further options for the Java machine, such as -Xmx1g. The archive's own Java comes first, then JAVA_HOME, then the path.
setlocal EnableExtensions DisableDelayedExpansion

for %%i in ("%~dp0..") do set "home=%%~fi"
set "java=%home%\runtime\bin\java.exe"
rem Flink needs more of Java than the archive carries.
if "%~1"=="fleet" set "java="
if not exist "%java%" if defined JAVA_HOME set "java=%JAVA_HOME%\bin\java.exe"
if not exist "%java%" set "java="
if not defined java for %%i in (java.exe) do set "java=%%~$PATH:i"
if not defined java (
  >&2 echo pawl: Java 17 or later is needed; install it or set JAVA_HOME
  exit /b 2
)

rem Only these can want the embedded broker, whose many jars would cost the others a tenth of a second.
set "also="
if "%~1"=="editor" set "also=;%home%\lib\editor\*"
set "memory=128m"
for %%i in (replay serve compare stress) do if "%~1"=="%%i" set "memory=512m"
if "%~1"=="fleet" set "also=;%home%\lib\fleet\*"
if "%~1"=="fleet" set "memory=2g"
for %%i in (replay serve watch record) do if "%~1"=="%%i" set "also=;%home%\lib\broker\*"

rem What pawl writes is UTF-8: the console is told so while it runs.
set "page="
for /f "tokens=2 delims=:." %%i in ('chcp 2^>nul') do set "page=%%i"
if defined page chcp 65001 >nul 2>nul

set "PAWL_CALLED=pawl"
"%java%" -Xshare:auto -Xlog:disable -XX:-UsePerfData -XX:+UseSerialGC -XX:FreqInlineSize=100 -Xmx%memory% "-Dpawl.home=%home%" %PAWL_JAVA_OPTIONS% -cp "%home%\lib\*%also%" dev.pawl.cli.Main %*
set "status=%ERRORLEVEL%"
if defined page chcp %page% >nul 2>nul
exit /b %status%
