@echo off
rem Starts Trebleproof from any folder. TREBLEPROOF_OPTS goes to Java, such as -Xmx1g.
setlocal
set "LIB=%~dp0..\lib"
set "JAVA=java"
if defined JAVA_HOME if exist "%JAVA_HOME%\bin\java.exe" set "JAVA=%JAVA_HOME%\bin\java.exe"
set "ARCHIVE="
if exist "%LIB%\trebleproof.jsa" set "ARCHIVE=-XX:SharedArchiveFile=%LIB%\trebleproof.jsa"
if "%~1"=="" (
  "%JAVA%" -Xshare:auto -Xlog:disable "-XX:SharedArchiveFile=%LIB%\window.jsa" -XX:+UseSerialGC -XX:TieredStopAtLevel=1 -XX:InitialHeapSize=64m -XX:MinHeapSize=32m -Xmx448m -Xmn40m -XX:MinHeapFreeRatio=10 -XX:MaxHeapFreeRatio=30 -XX:-UsePerfData %TREBLEPROOF_OPTS% -cp "%LIB%\trebleproof.jar" org.trebleproof.Start
  exit /b %ERRORLEVEL%
)
if defined ARCHIVE (
  "%JAVA%" -Xshare:auto -Xlog:disable "%ARCHIVE%" -XX:TieredStopAtLevel=1 -XX:Tier3BackEdgeThreshold=5000 -XX:Tier0BackedgeNotifyFreqLog=8 -XX:+UseSerialGC -Xmn48m -XX:-UsePerfData %TREBLEPROOF_OPTS% -cp "%LIB%\trebleproof.jar" org.trebleproof.cli.Main %*
) else (
  "%JAVA%" -Xshare:auto -Xlog:disable -XX:TieredStopAtLevel=1 -XX:Tier3BackEdgeThreshold=5000 -XX:Tier0BackedgeNotifyFreqLog=8 -XX:+UseSerialGC -Xmn48m -XX:-UsePerfData %TREBLEPROOF_OPTS% -cp "%LIB%\trebleproof.jar" org.trebleproof.cli.Main %*
)
exit /b %ERRORLEVEL%
