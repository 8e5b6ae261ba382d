@echo off
rem Builds what is missing or older than its sources, then runs sweepbook.
setlocal
set "home=%~dp0..\.."
set "jar=%home%\cli\target\sweepbook.jar"
set "archive=%home%\cli\target\classes.jsa"
set "java=java"
if defined JAVA_HOME set "java=%JAVA_HOME%\bin\java"

"%java%" -version >nul 2>&1 || (
    echo sweepbook: no Java found; install a JDK 17 or newer, or set JAVA_HOME to one 1>&2
    exit /b 2
)

set "stale="
if not exist "%jar%" set "stale=yes"
set "newer=(Get-Item $env:home\pom.xml, $env:home\*\pom.xml) + (Get-ChildItem $env:home\*\src\main -Recurse -File) | Where-Object LastWriteTime -gt (Get-Item $env:jar).LastWriteTime"
if not defined stale for /f %%n in ('powershell -NoProfile -Command "(%newer% | Measure-Object).Count"') do if not "%%n" == "0" set "stale=yes"

if defined stale (
    where /q mvn || (
        echo sweepbook: not built yet, and no Maven found to build it; install Maven 3.8 or newer 1>&2
        exit /b 2
    )
    echo sweepbook: building, this happens once ... 1>&2
    call mvn -q -f "%home%\pom.xml" package -DskipTests -Dspotless.apply.skip=true -Dspotless.check.skip=true 1>&2 || exit /b 2
    rem Maven leaves a jar alone whose sources are newer but the same.
    powershell -NoProfile -Command "(Get-Item $env:jar).LastWriteTime = Get-Date"
    if exist "%archive%" del "%archive%"
)
if not exist "%archive%" (
    "%java%" -XX:ArchiveClassesAtExit="%archive%" -XX:+UseSerialGC -jar "%jar%" --help >nul 2>&1
)
"%java%" -XX:SharedArchiveFile="%archive%" -Xshare:auto -Xlog:disable -Xlog:all=error:stderr -XX:+UseSerialGC -jar "%jar%" %*
exit /b %ERRORLEVEL%
