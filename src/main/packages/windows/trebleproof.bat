@echo off
rem Starts Trebleproof from any folder: the window, or a command. TREBLEPROOF_OPTS goes to Java.
setlocal
set "LIB=%~dp0..\lib"
set "JAVA=java"
if defined JAVA_HOME if exist "%JAVA_HOME%\bin\java.exe" set "JAVA=%JAVA_HOME%\bin\java.exe"
"%JAVA%" -Xlog:disable -XX:+UseSerialGC -XX:TieredStopAtLevel=1 -Xmx448m %TREBLEPROOF_OPTS% -cp "%LIB%\*" org.trebleproof.Start %*
exit /b %ERRORLEVEL%
