; Installs Skep for one person, without asking for the administrator.
; makensis -DVERSION=… -DFROM=<folder with Skep.exe> -DOUT=<installer> installer.nsi
Unicode true
Name "Skep"
OutFile "${OUT}"
InstallDir "$LOCALAPPDATA\Programs\Skep"
RequestExecutionLevel user
SetCompressor /SOLID lzma
Icon "${ICON}"
UninstallIcon "${ICON}"
VIProductVersion "${VERSION}.0"
VIAddVersionKey "ProductName" "Skep"
VIAddVersionKey "FileDescription" "Installs Skep, a tuning bench for honey beer"
VIAddVersionKey "FileVersion" "${VERSION}"
VIAddVersionKey "LegalCopyright" "MIT licence"
LicenseData "${FROM}/LICENSE"
Page license
Page directory
Page instfiles
UninstPage uninstConfirm
UninstPage instfiles

!define UNINSTALL "Software\Microsoft\Windows\CurrentVersion\Uninstall\Skep"

Section
  SetOutPath "$INSTDIR"
  File /r "${FROM}/*"
  CreateShortcut "$SMPROGRAMS\Skep.lnk" "$INSTDIR\Skep.exe"
  ; A plain .toml stays with whatever opens it today: Windows knows no double
  ; extension, so Skep only offers itself under "Open with".
  WriteRegStr HKCU "Software\Classes\Applications\Skep.exe\shell\open\command" "" '"$INSTDIR\Skep.exe" "%1"'
  WriteRegStr HKCU "Software\Classes\Applications\Skep.exe\SupportedTypes" ".toml" ""
  WriteUninstaller "$INSTDIR\Uninstall.exe"
  WriteRegStr HKCU "${UNINSTALL}" "DisplayName" "Skep"
  WriteRegStr HKCU "${UNINSTALL}" "DisplayVersion" "${VERSION}"
  WriteRegStr HKCU "${UNINSTALL}" "DisplayIcon" "$INSTDIR\Skep.exe"
  WriteRegStr HKCU "${UNINSTALL}" "UninstallString" '"$INSTDIR\Uninstall.exe"'
  WriteRegDWORD HKCU "${UNINSTALL}" "NoModify" 1
  WriteRegDWORD HKCU "${UNINSTALL}" "NoRepair" 1
SectionEnd

; Designs and batches stand in the person's own folders: they stay.
Section "Uninstall"
  Delete "$SMPROGRAMS\Skep.lnk"
  Delete "$INSTDIR\Skep.exe"
  Delete "$INSTDIR\skep-commands.exe"
  Delete "$INSTDIR\NOTICES.txt"
  Delete "$INSTDIR\README.md"
  Delete "$INSTDIR\LICENSE"
  Delete "$INSTDIR\demo\gate-field-*.toml"
  RMDir "$INSTDIR\demo"
  Delete "$INSTDIR\Uninstall.exe"
  RMDir "$INSTDIR"
  DeleteRegKey HKCU "Software\Classes\Applications\Skep.exe"
  DeleteRegKey HKCU "${UNINSTALL}"
SectionEnd
