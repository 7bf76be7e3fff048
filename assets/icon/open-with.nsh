; Offers Ribband under "Open with" for JSON files, without making it their usual program: Windows looks at the last part of a
; name only and cannot tell *.ribband.json from other JSON.
!macro customInstall
  WriteRegStr SHELL_CONTEXT "Software\Classes\Ribband.Project" "" "Ribband project"
  WriteRegStr SHELL_CONTEXT "Software\Classes\Ribband.Project\shell\open\command" "" '"$INSTDIR\${APP_EXECUTABLE_FILENAME}" "%1"'
  WriteRegStr SHELL_CONTEXT "Software\Classes\.json\OpenWithProgids" "Ribband.Project" ""
!macroend

!macro customUnInstall
  DeleteRegValue SHELL_CONTEXT "Software\Classes\.json\OpenWithProgids" "Ribband.Project"
  DeleteRegKey SHELL_CONTEXT "Software\Classes\Ribband.Project"
!macroend
