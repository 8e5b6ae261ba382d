@echo off
rem Builds what is missing, then runs sweepbook.
setlocal
set "home=%~dp0..\.."
set "jar=%home%\cli\target\sweepbook.jar"
set "archive=%home%\cli\target\classes.jsa"
set "java=java"
if defined JAVA_HOME set "java=%JAVA_HOME%\bin\java"

where /q "%java%" 2>nul || "%java%" -version >nul 2>&1 || (
    echo sweepbook: no Java found; install a JDK 17 or newer, or set JAVA_HOME to one 1>&2
    exit /b 2
)
if not exist "%jar%" (
    echo sweepbook: building, this happens once ... 1>&2
    call mvn -q -f "%home%\pom.xml" package -DskipTests -Dspotless.apply.skip=true -Dspotless.check.skip=true 1>&2 || exit /b 2
)
if not exist "%archive%" (
    "%java%" -XX:ArchiveClassesAtExit="%archive%" -XX:+UseSerialGC -jar "%jar%" --help >nul 2>&1
)
"%java%" -XX:SharedArchiveFile="%archive%" -Xshare:auto -XX:+UseSerialGC -jar "%jar%" %*
exit /b %ERRORLEVEL%
